import type { Beat } from '@slackwater/contract';
import type { Delta } from './rows.ts';

/** What comes down the line of a ward. */
export type Message<Row> =
  /** `ageMs`: 0 as it comes, more when another tab passes on its last one. */
  | { type: 'beat'; beat: Beat; ageMs: number }
  | { type: 'rows'; delta: Delta<Row> }
  /** The line broke or could not be opened. */
  | { type: 'lost' };

type Listener<Row> = (message: Message<Row>) => void;

/** Without a sound for so long a line is taken for dead even if nobody said so: two beats were due. */
const DEAF_AFTER_MS = 32_000;
const RETRY_MS = [500, 1000, 2000, 4000, 8000] as const;

/**
 * Opens the ward's event stream and keeps opening it. What was missed meanwhile is not its concern: the first beat
 * tells the position, and the listener asks for what lies between.
 */
const openStream = <Row>(url: string, listener: Listener<Row>): (() => void) => {
  let source: EventSource | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let failures = 0;

  const watch = () => {
    clearTimeout(timer);
    timer = setTimeout(broken, DEAF_AFTER_MS);
  };
  const broken = () => {
    source?.close();
    listener({ type: 'lost' });
    const wait = RETRY_MS[Math.min(failures, RETRY_MS.length - 1)] ?? 8000;
    failures += 1;
    // Spread out, so that a ward's boards do not all come back in the same instant.
    clearTimeout(timer);
    timer = setTimeout(open, wait * (0.75 + Math.random() / 2));
  };
  const open = () => {
    source = new EventSource(url);
    source.addEventListener('beat', (event) => {
      failures = 0;
      watch();
      listener({ type: 'beat', beat: JSON.parse(event.data) as Beat, ageMs: 0 });
    });
    source.addEventListener('rows', (event) => {
      watch();
      listener({ type: 'rows', delta: JSON.parse(event.data) as Delta<Row> });
    });
    source.addEventListener('error', broken);
    watch();
  };
  const online = () => {
    if (source?.readyState === EventSource.OPEN) return;
    clearTimeout(timer);
    source?.close();
    open();
  };

  open();
  window.addEventListener('online', online);
  return () => {
    clearTimeout(timer);
    window.removeEventListener('online', online);
    source?.close();
  };
};

/**
 * One stream for all tabs of a browser: HTTP/1.1 allows six connections to a host, and each stream holds one. The tab
 * that holds the lock listens and passes on what it hears; when it closes, the lock goes to the next.
 *
 * @returns a function that stops listening
 */
export const openLine = <Row>(url: string, listener: Listener<Row>): (() => void) => {
  if (!('locks' in navigator) || !('BroadcastChannel' in window)) return openStream(url, listener);
  const channel = new BroadcastChannel(`slackwater ${url}`);
  const ended = new AbortController();
  let last: { beat: Beat; heardAt: number } | null = null;
  let leads = false;

  channel.addEventListener('message', ({ data }: MessageEvent<Message<Row> | { type: 'newcomer' }>) => {
    if (data.type !== 'newcomer') listener(data);
    else if (leads && last) {
      const ageMs = performance.now() - last.heardAt;
      channel.postMessage({ type: 'beat', beat: last.beat, ageMs } satisfies Message<Row>);
    }
  });
  channel.postMessage({ type: 'newcomer' });

  const lead = () =>
    new Promise<void>((resolve) => {
      leads = true;
      const close = openStream<Row>(url, (message) => {
        if (message.type === 'beat') last = { beat: message.beat, heardAt: performance.now() };
        if (message.type === 'lost') last = null;
        channel.postMessage(message);
        listener(message);
      });
      ended.signal.addEventListener('abort', () => {
        close();
        resolve();
      });
    });
  navigator.locks
    .request(`slackwater ${url}`, { signal: ended.signal }, lead)
    // Aborted while it waited for the lock: the tab closes its line before it ever led.
    .catch(() => {});

  return () => {
    ended.abort();
    channel.close();
  };
};
