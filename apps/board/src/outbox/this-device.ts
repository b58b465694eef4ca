import { api } from '../api/client.ts';
import { serverClock } from '../api/clock.ts';
import { patientKey } from '../api/queries.ts';
import { queryClient } from '../api/query-client.ts';
import { reached } from '../api/reach.ts';
import { whenInSight } from '../ui/when-in-sight.ts';
import { applyAnswer } from './apply-answer.ts';
import { findHolder, forgetKeys } from './holder.ts';
import { createOutbox } from './outbox.ts';
import { readyToSend, sendTouch } from './send-touch.ts';
import { addTouch, openStore, removeTouch, replaceTouch } from './store.ts';
import { hearTabs, tellTabs } from './tabs.ts';
import type { ClockReading } from './touch.ts';

const PROBE_MS = 5000;

/** The device's clocks now. */
export const readClocks = (): ClockReading => ({
  deviceAt: Date.now(),
  monotonicAt: performance.now(),
  life: performance.timeOrigin,
});

/** One tab of this browser sends at a time; where a browser has no locks, each sends, and twice is once. */
const alone = async (work: () => Promise<void>): Promise<void> => {
  if (!('locks' in navigator)) return work();
  await navigator.locks.request('slackwater outbox', work);
};

const later = (ms: number, work: () => void) => {
  const timer = setTimeout(work, ms);
  return () => clearTimeout(timer);
};

/** The outbox of this browser. */
export const outbox = createOutbox({
  rows: async () => {
    const store = await openStore();
    return {
      all: () => store.getAll('touches'),
      add: (row) => addTouch(store, row),
      replace: (row) => replaceTouch(store, row),
      remove: (sequence) => removeTouch(store, sequence),
    };
  },
  send: (touch, attended) => sendTouch(touch, attended, outbox.current().holder?.accountId ?? ''),
  ready: readyToSend,
  isDown: () => reached.current().down,
  now: serverClock.now,
  reading: readClocks,
  alone,
  arrived: ({ patientId }, result) => {
    if (patientId !== null && result.is === 'recorded') applyAnswer(patientId, result.answer);
    if (result.is === 'recorded') return;
    // What was refused takes the prediction with it: look again where the bedside stands.
    if (patientId !== null) void queryClient.invalidateQueries({ queryKey: patientKey(patientId) });
    void queryClient.invalidateQueries({ queryKey: ['kept'] });
  },
  changed: () => tellTabs('changed'),
  later,
});

hearTabs((message) => {
  if (message === 'changed') void outbox.read();
  else window.location.reload();
});

/** Asks again and again whether the server is there, while nothing waits that would ask by being sent. */
const probe = async (): Promise<void> => {
  if (!reached.current().down) return;
  if (outbox.current().waiting.length === 0) await api.get('/api/session').catch(() => {});
  if (reached.current().down) later(PROBE_MS, () => void probe());
};

let wasDown = false;
const lineChanged = () => {
  const { down } = reached.current();
  if (down && !wasDown) later(PROBE_MS, () => void probe());
  if (wasDown && !down) {
    void queryClient.invalidateQueries();
    outbox.lineIsBack();
  }
  wasDown = down;
};
reached.subscribe(lineChanged);
lineChanged();

window.addEventListener('online', () => {
  if (outbox.current().waiting.length === 0) void api.get('/api/session').catch(() => {});
  else outbox.networkIsBack();
});
whenInSight(() => void outbox.send());

/** Opens what waits here for whoever is signed in. Nothing waits in a browser that keeps nothing. */
export const beginOutbox = async (accountId: string | null): Promise<void> => {
  try {
    const holder = await findHolder();
    await outbox.hold(holder?.accountId === accountId ? holder : null);
  } catch {
    // The screens go on: a touch is sent as it is made, and one that fails says so.
  }
};

/** Signing out: the key goes, what waits stays. Other tabs of this browser turn away too. */
export const endOutbox = async (): Promise<void> => {
  await forgetKeys();
  await beginOutbox(null);
  tellTabs('person');
};
