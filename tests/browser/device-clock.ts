/// <reference lib="dom" />
import type { BrowserContext, Page } from 'playwright-core';

/** The clocks of a device as a page of it sees them, to be moved from a test. */
type DeviceClock = {
  /** Somebody sets the time of day; what counts from the page's start goes on, as on a device. */
  set: (aheadMs: number) => void;
  /** Time passes for all clocks of the device, and whoever looks after a while is told of it. */
  pass: (ms: number) => void;
};

type WithClock = typeof globalThis & { deviceClock: DeviceClock };

/** Gives all pages that are opened from now on clocks that can be moved; at first the time of day is so far ahead. */
export const movableClock = (device: Page | BrowserContext, aheadMs = 0): Promise<unknown> =>
  device.addInitScript((startsAheadMs) => {
    const timeOfDay = Date.now;
    const sinceStart = performance.now.bind(performance);
    let ahead = startsAheadMs;
    let passed = 0;
    const now = () => timeOfDay() + ahead + passed;
    globalThis.Date = new Proxy(Date, {
      construct: (target, given, made) => Reflect.construct(target, given.length === 0 ? [now()] : given, made),
      get: (target, name) => (name === 'now' ? now : Reflect.get(target, name)),
    });
    performance.now = () => sinceStart() + passed;
    (globalThis as WithClock).deviceClock = {
      set: (ms) => {
        ahead = ms;
      },
      pass: (ms) => {
        passed += ms;
        document.dispatchEvent(new Event('visibilitychange'));
      },
    };
  }, aheadMs);

export const setTimeOfDay = (page: Page, aheadMs: number): Promise<void> =>
  page.evaluate((ms) => (globalThis as WithClock).deviceClock.set(ms), aheadMs);

export const passTime = (page: Page, ms: number): Promise<void> =>
  page.evaluate((passedMs) => (globalThis as WithClock).deviceClock.pass(passedMs), ms);
