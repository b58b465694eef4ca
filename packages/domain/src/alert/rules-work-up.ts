import { openWorkUp } from '../peritonitis/work-up.ts';
import { standingOf } from '../peritonitis/work-up-standing.ts';
import { plusMinutes } from '../time/instant.ts';
import { clockOf, minutesOf, textOf } from './fact-words.ts';
import type { AlertRule } from './rule.ts';

/** A suspicion that nobody follows up: no sample, or no count of one. */
export const workUpWaiting: AlertRule = {
  spans: ({ workUps, comforts }, { settings }) => {
    const workUp = openWorkUp(workUps);
    if (workUp === null) return [];
    const { awaiting, awaitedSince } = standingOf(workUp, comforts);
    const waits = (forWhat: 'sample' | 'count', from: number, minutes: number) => ({
      cause: `${workUp.id}/${forWhat}`,
      rank: forWhat === 'sample' ? ('medium' as const) : ('low' as const),
      since: plusMinutes(from, minutes),
      until: null,
      facts: { forWhat, from, minutes },
    });
    if (awaiting.includes('sample')) return [waits('sample', workUp.openedAt, settings.sampleWithinMinutes)];
    if (!awaiting.includes('count') || awaitedSince === null) return [];
    return [waits('count', awaitedSince, settings.countWithinHours * 60)];
  },
  staysUntilCleared: false,
  ranks: ['medium', 'low'],
  when: 'A suspected peritonitis has no sample (medium), or a sample no cell count (low), after the ward’s time.',
  ends: 'The sample, the count, or the conclusion of the work-up.',
  settings: ['sampleWithinMinutes', 'countWithinHours'],
  why: (facts, policy) =>
    facts.forWhat === 'sample'
      ? `Suspected peritonitis since ${clockOf(facts.from, policy)}, no sample after ${minutesOf(facts.minutes)}.`
      : `The ${textOf(facts.forWhat)} of the sample of ${clockOf(facts.from, policy)} is not reported after ${minutesOf(facts.minutes)}.`,
  next: (facts) =>
    facts.forWhat === 'sample'
      ? 'Take the sample, before any antibiotic, and enter it; or conclude the work-up with a reason.'
      : 'Ask the laboratory; enter the report.',
  source: 'Ward settings, common practice. Samples reach the laboratory within 6 h: RCP review, Box 2.',
};
