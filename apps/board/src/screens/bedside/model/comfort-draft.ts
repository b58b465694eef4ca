import type { Comfort, SuddenOutflow, SwellingPlace } from '@slackwater/domain';
import { readDigits } from '../../../ui/digits.ts';

export type Felt = 'cramp' | 'breathless' | 'leakAtExit' | 'swelling' | SuddenOutflow;

/** What is typed and ticked of the patient's comfort. */
export type ComfortDraft = {
  felt: readonly Felt[];
  swellingAt: readonly SwellingPlace[];
  /** Empty is "not asked", never "none": the criteria of peritonitis tell the two apart. */
  pain: string;
  painPhase: Comfort['phase'];
};

export const NO_COMFORT: ComfortDraft = { felt: [], swellingAt: [], pain: '', painPhase: null };

export const PAIN = { least: 0, most: 10, unit: '/10' } as const;

/** What the draft says of comfort, and what is wrong with the pain that was typed. */
export const readComfort = ({ felt, swellingAt, pain, painPhase }: ComfortDraft) => {
  const read = readDigits(pain, PAIN);
  const swelling = felt.includes('swelling');
  const sudden = felt.filter((one) => one === 'urine' || one === 'wateryStool');
  const comfort: Comfort = {
    pain: read.value,
    phase: read.value ? painPhase : null,
    cramp: felt.includes('cramp'),
    breathless: felt.includes('breathless'),
    leakAtExit: felt.includes('leakAtExit'),
    swelling,
    ...(swelling && swellingAt.length > 0 ? { swellingAt } : {}),
    ...(sudden.length > 0 ? { sudden } : {}),
  };
  return { comfort, problem: read.problem };
};
