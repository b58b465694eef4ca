import type { EntriesAnswer } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain';
import { clockVerdict, shifted } from './clock-rule.ts';
import type { Holder } from './holder.ts';
import { type Sealed, seal, unseal } from './seal.ts';
import { isEnd, OUTBOX_TABLE, type OutboxEvent, type OutboxState } from './states.ts';
import type { TouchRow } from './store.ts';
import { type ClockReading, decodeTouch, isReadable, TOUCH_FORMAT, type Touch } from './touch.ts';

/** One touch on this device, with where it stands. */
export type Waiting = {
  sequence: number;
  touch: Touch;
  state: OutboxState;
  /** Only while it asks for its time: by how much the device's clock stepped. */
  steppedMs: number | null;
  /** Its author looks at the screen that sends it, and decides about a refusal there. */
  attended: boolean;
};

/** What a screen sees of the outbox; a new object whenever something in it changed. */
export type OutboxNow = {
  /** null: nothing can wait here, since nobody holds a key or the browser keeps nothing. */
  holder: { accountId: string; name: string } | null;
  waiting: readonly Waiting[];
  /** What others wrote here, and what a newer build wrote: kept untouched. */
  others: readonly { name: string; entries: number }[];
  newer: number;
  triedAt: EpochMs | null;
  nextTryAt: EpochMs | null;
  /** What holds all of it up, in words; null: nothing but the line. */
  heldUp: string | null;
};

/** What became of a touch whose author waited for the answer. */
export type Outcome =
  | { is: 'recorded'; answer: EntriesAnswer }
  | { is: 'waits' }
  /** Refused while its author looks on: nothing is kept, the screen asks. */
  | { is: 'refused'; problem: unknown }
  /** Nothing can wait here: the caller sends by itself. */
  | { is: 'noOutbox' };

/** What the server made of one sending. */
export type SendResult =
  | { is: 'recorded'; answer: EntriesAnswer }
  | { is: 'kept' }
  | { is: 'refused'; problem: unknown }
  | { is: 'noAnswer' }
  | { is: 'tooEarly' }
  /** The server is there and takes nothing, and says why: sign in, give the password, its disk is full. */
  | { is: 'heldUp'; words: string };

/** Where the rows lie; a small part of the browser's database. */
export type Rows = {
  all: () => Promise<readonly TouchRow[]>;
  add: (row: Omit<TouchRow, 'sequence'>) => Promise<number>;
  replace: (row: TouchRow) => Promise<void>;
  remove: (sequence: number) => Promise<void>;
};

export type Parts = {
  rows: () => Promise<Rows>;
  /** Sends one touch; `attended`: its author waits, so a refusal comes back instead of being kept. */
  send: (touch: Touch, attended: boolean) => Promise<SendResult>;
  /** Asks the server who is signed in, which also sets the ward's clock; words if nothing may go out now. */
  ready: (holder: Holder) => Promise<SendResult | null>;
  isDown: () => boolean;
  now: () => EpochMs;
  reading: () => ClockReading;
  /** One tab of the browser sends at a time. */
  alone: (work: () => Promise<void>) => Promise<void>;
  /** Told of what arrived, before it leaves the list, so that no screen shows neither. */
  arrived: (touch: Touch, result: Extract<SendResult, { is: 'recorded' | 'kept' }>) => void;
  /** Told when another tab should read the rows again. */
  changed: () => void;
  /** Calls back after so long; answers how to call it off. */
  later: (ms: number, work: () => void) => () => void;
};

/** Soon at first, then every half minute: a tablet under a bed may be without network for hours. */
const RETRY_MS = [1000, 2000, 5000, 10_000, 20_000, 30_000] as const;
/** A person who waits is told after so long that it waits on the device. */
const PATIENCE_MS = 10_000;

const NOTHING: OutboxNow = {
  holder: null,
  waiting: [],
  others: [],
  newer: 0,
  triedAt: null,
  nextTryAt: null,
  heldUp: null,
};

/** Keeps touches on this device until the record, or what is kept on the server, has them; sends them in order. */
export const createOutbox = (parts: Parts) => {
  const listeners = new Set<() => void>();
  const attended = new Map<number, (outcome: Outcome) => void>();
  let current = NOTHING;
  let holder: Holder | null = null;
  let failures = 0;
  let callOff: (() => void) | null = null;
  let sending: Promise<void> | null = null;
  let again = false;
  /** The network came back while a pass was under way, which may have failed for want of it. */
  let isBack = false;

  const set = (change: Partial<OutboxNow>) => {
    current = { ...current, ...change };
    for (const listener of listeners) listener();
  };

  const step = (sequence: number, event: OutboxEvent, steppedMs: number | null = null) => {
    const waiting = current.waiting.map((one) =>
      one.sequence === sequence
        ? { ...one, state: OUTBOX_TABLE[one.state][event], steppedMs, attended: attended.has(sequence) }
        : one,
    );
    set({ waiting: waiting.filter(({ state }) => !isEnd(state)) });
  };

  const settle = (sequence: number, outcome: Outcome) => {
    attended.get(sequence)?.(outcome);
    attended.delete(sequence);
  };

  const bindingOf = ({ accountId, device }: Holder, format: number) => ({ accountId, device, format, what: 'touch' });

  /** Reads the rows anew: what is mine and can be opened, and how much is not. */
  const read = async (): Promise<void> => {
    const mine = holder;
    const all = await (await parts.rows()).all();
    const before = new Map(current.waiting.map((one) => [one.sequence, one]));
    const waiting: Waiting[] = [];
    const others = new Map<string, number>();
    let newer = 0;
    for (const row of all) {
      if (!isReadable(row.format)) newer += row.entries;
      else if (mine === null || row.accountId !== mine.accountId)
        others.set(row.accountName, (others.get(row.accountName) ?? 0) + row.entries);
      else {
        const known = before.get(row.sequence);
        const touch = known?.touch ?? (await opened(mine, row));
        if (touch === null) others.set(row.accountName, (others.get(row.accountName) ?? 0) + row.entries);
        else {
          const rest = { steppedMs: known?.steppedMs ?? null, attended: attended.has(row.sequence) };
          waiting.push({ sequence: row.sequence, touch, state: known?.state ?? 'onDevice', ...rest });
        }
      }
    }
    set({
      holder: mine && { accountId: mine.accountId, name: mine.name },
      waiting,
      others: [...others].map(([name, entries]) => ({ name, entries })),
      newer,
    });
  };

  const opened = async (by: Holder, row: TouchRow): Promise<Touch | null> => {
    try {
      return decodeTouch(row.format, await unseal(by.key, bindingOf(by, row.format), row));
    } catch {
      // Sealed under a key that this person does not hold here: it stays as it is, and is counted.
      return null;
    }
  };

  const sealed = (by: Holder, touch: Touch): Promise<Sealed> => seal(by.key, bindingOf(by, TOUCH_FORMAT), touch);

  const rowOf = async (by: Holder, touch: Touch): Promise<Omit<TouchRow, 'sequence'>> => ({
    ...(await sealed(by, touch)),
    format: TOUCH_FORMAT,
    accountId: by.accountId,
    accountName: by.name,
    entries: touch.drafts.length,
  });

  const tryLater = () => {
    callOff?.();
    const wait = RETRY_MS[Math.min(failures, RETRY_MS.length - 1)] ?? 30_000;
    failures += 1;
    set({ nextTryAt: parts.now() + wait });
    callOff = parts.later(wait, () => void send());
  };

  /** Takes one touch as far as it goes. @returns whether the next may go */
  const sendOne = async (one: Waiting): Promise<'next' | 'patientWaits' | 'stop'> => {
    const isAttended = attended.has(one.sequence);
    if (!isAttended) {
      const verdict = clockVerdict(one.touch, { wardAt: parts.now(), clock: parts.reading() });
      if (verdict.is === 'stepped') {
        step(one.sequence, 'clockStepped', verdict.byMs);
        return 'patientWaits';
      }
    }
    step(one.sequence, 'sent');
    const result = await parts.send(one.touch, isAttended);
    switch (result.is) {
      case 'recorded':
      case 'kept':
        parts.arrived(one.touch, result);
        step(one.sequence, result.is === 'recorded' ? 'recorded' : 'refused');
        settle(one.sequence, result.is === 'recorded' ? result : { is: 'waits' });
        await (await parts.rows()).remove(one.sequence);
        return 'next';
      case 'refused':
        // Its author has gone on meanwhile: it goes once more, by the door that keeps what is refused.
        if (!attended.has(one.sequence)) {
          step(one.sequence, 'noAnswer');
          again = true;
          return 'next';
        }
        await (await parts.rows()).remove(one.sequence);
        set({ waiting: current.waiting.filter(({ sequence }) => sequence !== one.sequence) });
        settle(one.sequence, result);
        return 'next';
      case 'tooEarly':
        settle(one.sequence, { is: 'waits' });
        step(one.sequence, 'tooEarly');
        return 'patientWaits';
      case 'noAnswer':
        settle(one.sequence, { is: 'waits' });
        step(one.sequence, 'noAnswer');
        return 'stop';
      case 'heldUp':
        settle(one.sequence, { is: 'waits' });
        step(one.sequence, 'noAnswer');
        set({ heldUp: result.words });
        return 'stop';
    }
  };

  const pass = async (): Promise<void> => {
    await read();
    const by = holder;
    if (by === null || current.waiting.length === 0) return;
    set({ triedAt: parts.now(), nextTryAt: null, heldUp: null });
    if (current.waiting.some(({ sequence }) => !attended.has(sequence))) {
      const notReady = await parts.ready(by);
      if (notReady) {
        if (notReady.is === 'heldUp') set({ heldUp: notReady.words });
        return tryLater();
      }
    }
    const waits = new Set<string | null>();
    for (const one of current.waiting) {
      if (waits.has(one.touch.patientId)) {
        settle(one.sequence, { is: 'waits' });
        continue;
      }
      const went = await sendOne(one);
      parts.changed();
      if (went === 'stop') return tryLater();
      if (went === 'patientWaits') waits.add(one.touch.patientId);
    }
    failures = 0;
    if (current.waiting.some(({ state }) => state === 'afterEarlier')) tryLater();
  };

  /** Sends what waits, in order; a call while it sends makes one more pass. */
  const send = async (): Promise<void> => {
    again = true;
    sending ??= parts
      .alone(async () => {
        while (again) {
          again = false;
          isBack = false;
          callOff?.();
          callOff = null;
          await pass();
          // Held up: only what its author waits for is tried before the next turn.
          if (callOff !== null && attended.size === 0 && !isBack) again = false;
        }
      })
      .finally(() => {
        sending = null;
        for (const sequence of attended.keys()) settle(sequence, { is: 'waits' });
        set({ waiting: current.waiting.map((one) => ({ ...one, attended: attended.has(one.sequence) })) });
      });
    await sending;
  };

  return {
    subscribe: (listener: () => void) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    current: () => current,
    read,
    send,

    /** The browser says that there is a network again: a try that fails at this moment is made once more at once. */
    networkIsBack: (): void => {
      isBack = true;
      void send();
    },

    /** The server is heard again: nothing waits any longer, unless it is being sent already. */
    lineIsBack: (): void => {
      if (sending === null) void send();
    },

    /** Whose touches may wait here from now on; null: nobody's. */
    hold: async (by: Holder | null): Promise<void> => {
      holder = by;
      await read();
      if (by) void send();
    },

    /** Puts one touch onto this device and, with network, waits for the answer. */
    put: async (touch: Touch): Promise<Outcome> => {
      const by = holder;
      if (by === null) return { is: 'noOutbox' };
      const sequence = await (await parts.rows()).add(await rowOf(by, touch));
      if (parts.isDown()) {
        await read();
        parts.changed();
        void send();
        return { is: 'waits' };
      }
      return new Promise((resolve) => {
        attended.set(sequence, resolve);
        const stop = parts.later(PATIENCE_MS, () => {
          settle(sequence, { is: 'waits' });
          void read();
        });
        void send().then(stop, stop);
      });
    },

    /** Somebody says of all that asks whether its times are right as they stand, or go with the clock. */
    sayTimes: async (which: 'asWritten' | 'withTheClock'): Promise<void> => {
      const by = holder;
      if (by === null) return;
      for (const one of current.waiting.filter(({ state }) => state === 'asksForTime')) {
        const touch = shifted(one.touch, which === 'asWritten' ? 0 : (one.steppedMs ?? 0));
        await (await parts.rows()).replace({ ...(await rowOf(by, touch)), sequence: one.sequence });
        const waiting = current.waiting.map((other) => (other === one ? { ...one, touch } : other));
        set({ waiting });
        step(one.sequence, 'timeSaid');
      }
      void send();
    },
  };
};
