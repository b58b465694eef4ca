import type { EntryView } from '@slackwater/contract';
import { describe, expect, it } from 'vitest';
import { lastActOf } from './last-act.ts';

const VISIT = 'visit';
let position = 0;
const entry = (id: string, kind: EntryView['kind'], change: Partial<EntryView> = {}): EntryView =>
  ({
    id,
    kind,
    visitId: VISIT,
    author: 'lindahl',
    authorName: 'Signe Lindahl',
    position: ++position,
    receivedAt: position,
    retractedBy: null,
    ...change,
  }) as EntryView;

const started = entry('started', 'startDrain');
const looked = entry('looked', 'appearance', { receivedAt: 100 });
const ended = entry('ended', 'endDrain', { receivedAt: 100 });

const idsOf = (entries: readonly EntryView[], head: string) =>
  lastActOf(entries, VISIT, head)?.entries.map(({ id }) => id) ?? null;

describe('the act that may be undone', () => {
  it('is all that the newest touch wrote', () => {
    expect(idsOf([ended, looked, started], 'ended')).toEqual(['ended', 'looked']);
  });

  it('is none while the entries are older than the state: an earlier touch would go', () => {
    expect(idsOf([started], 'ended')).toBeNull();
  });

  it('is none while the state is older than the entries', () => {
    expect(idsOf([ended, looked, started], 'started')).toBeNull();
  });

  it('is the touch before, once the newest was taken back; what the tool wrote meanwhile does not follow', () => {
    const takenBack = [ended, looked].map((one) => ({ ...one, retractedBy: 'retraction' }));
    const raised = entry('raised', 'alertRaised', { author: null });
    expect(idsOf([raised, ...takenBack, started], 'started')).toEqual(['started']);
  });
});
