import { expect, it } from 'vitest';
import { isLockedOffline } from './offline-lock.ts';

const MINUTE = 60_000;
const idle = (minutes: number | null, visitOpen: boolean) =>
  isLockedOffline({
    lastActAt: minutes === null ? null : 1000 * MINUTE - minutes * MINUTE,
    now: 1000 * MINUTE,
    idleLockMs: 30 * MINUTE,
    visitOpen,
  });

it('without network writing locks after the idle time, and waits for the end of the open visit', () => {
  expect([idle(29, false), idle(30, false)]).toEqual([false, true]);
  expect([idle(30, true), idle(300, true)]).toEqual([false, false]);
});

it('is locked where nobody knows when the person last wrote', () => {
  expect(idle(null, false)).toBe(true);
});
