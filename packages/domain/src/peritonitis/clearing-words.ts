import { formatIsoDate } from '../words/numbers.ts';
import type { ClearingStanding } from './antibiotics.ts';
import { type Clearing, REFRACTORY_AFTER_DAYS } from './course.ts';

const STATE_WORDS: Record<Clearing['state'], string> = {
  tooEarly: `before ${REFRACTORY_AFTER_DAYS} days it is too early to say`,
  cleared: 'the effluent is clear, and the last count is no longer over the limit',
  refractory: `not clear after ${REFRACTORY_AFTER_DAYS} days, which is called refractory`,
  notKnown: 'whether it is clear is not known: a look at the effluent or a count is missing',
};

/**
 * How it clears, in words. A statement about the effluent (ISPD 2022, from memory) and never an instruction: what follows
 * from it the physician decides.
 */
export function clearingWords(standing: ClearingStanding): string {
  if (standing.is === 'noAntibiotic') return 'No antibiotic is recorded: clearing is not counted.';
  if (standing.is === 'answerNotKnown') {
    const what = standing.what.join(', ');
    return `Nobody has said yet that the organism answers to ${what}: clearing is not counted.`;
  }
  const { since, clearing } = standing;
  const days = `${clearing.days} ${clearing.days === 1 ? 'day' : 'days'}`;
  const head = `${days} of an antibiotic that the organism answers to, since ${formatIsoDate(since)}: ${STATE_WORDS[clearing.state]}.`;
  if (clearing.falling === null || clearing.state === 'cleared') return head;
  return clearing.falling
    ? `${head} The count falls: watching longer is right while it falls towards normal.`
    : `${head} The count does not fall.`;
}
