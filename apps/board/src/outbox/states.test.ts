import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isEnd, OUTBOX_TABLE, type OutboxEvent, type OutboxState } from './states.ts';

const EVENTS = Object.keys(OUTBOX_TABLE.onDevice) as OutboxEvent[];
const run = (events: readonly OutboxEvent[]): OutboxState =>
  events.reduce<OutboxState>((state, event) => OUTBOX_TABLE[state][event], 'onDevice');
const but = (...left: readonly OutboxEvent[]) =>
  fc.array(fc.constantFrom(...EVENTS.filter((event) => !left.includes(event))), { maxLength: 20 });

describe('a touch on its way into the record', () => {
  it('is acknowledged by the record alone: without its word no course ends there', () => {
    fc.assert(fc.property(but('recorded'), (events) => run(events) !== 'inRecord'));
  });

  it('is never given up by anything but a refusal that is kept', () => {
    fc.assert(fc.property(but('recorded', 'refused'), (events) => !isEnd(run(events))));
  });

  it('never comes back from an end', () => {
    const any = but();
    fc.assert(
      fc.property(any, any, (before, more) => !isEnd(run(before)) || run([...before, ...more]) === run(before)),
    );
  });

  it('does not leave while it asks for its time, until somebody says it', () => {
    fc.assert(
      fc.property(
        but('timeSaid', 'recorded', 'refused'),
        (events) => run(['clockStepped', ...events]) === 'asksForTime',
      ),
    );
    expect(run(['clockStepped', 'timeSaid', 'sent'])).toBe('sending');
  });

  it('waits on the device again when no answer came', () => {
    expect(run(['sent', 'noAnswer'])).toBe('onDevice');
    expect(run(['sent', 'tooEarly', 'sent', 'recorded'])).toBe('inRecord');
  });
});
