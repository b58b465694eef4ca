import { describe, expect, it } from 'vitest';
import { STEPS, type VisitState } from './steps.ts';
import { EXCHANGE_TABLE, mayTake } from './table.ts';

/** The steps that may follow each state of a visit (common practice of a manual exchange). */
const ALLOWED: Record<VisitState, readonly string[]> = {
  none: ['prepare', 'resume'],
  preparing: ['connect', 'stop'],
  connected: ['startDrain', 'startFill', 'stop'],
  draining: ['endDrain', 'stop'],
  drained: ['startDrain', 'startFill', 'close', 'stop'],
  filling: ['endFill', 'stop'],
  closing: ['startDrain', 'startFill', 'close', 'stop'],
};

describe('the table of steps', () => {
  it.each(Object.entries(ALLOWED))('from %s allows exactly what may follow', (state, steps) => {
    expect(STEPS.filter((step) => mayTake(state as VisitState, step).allowed)).toEqual(steps);
  });

  it('says why, in a sentence, wherever a step may not be taken', () => {
    for (const rules of Object.values(EXCHANGE_TABLE)) {
      for (const rule of Object.values(rules)) {
        if (rule.allowed) continue;
        expect(rule.why).toMatch(/^[A-Z].*\.$/);
        expect(rule.code).toMatch(/^[a-z-]+$/);
      }
    }
  });

  it('lets a visit be stopped at any stage, and nothing else be done but prepare or resume when there is none', () => {
    for (const state of Object.keys(ALLOWED) as VisitState[]) {
      expect(mayTake(state, 'stop').allowed).toBe(state !== 'none');
    }
  });
});
