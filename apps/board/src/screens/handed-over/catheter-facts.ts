import type { BedsideState } from '@slackwater/domain';
import { formatDate, formatMl } from '@slackwater/domain/words/numbers';
import { CATHETER_WORDS } from '../../components/catheter-words.ts';
import type { FluidFact } from '../patient-record/words/fluid-words.ts';

/** The access, as it is told on: since when the catheter is in, what was last done to it, its break-in limit. */
export const catheterFacts = (
  { catheter, catheterInsertedAt }: Pick<BedsideState, 'catheter' | 'catheterInsertedAt'>,
  zone: string,
): readonly FluidFact[] => {
  const since =
    catheterInsertedAt === null ? 'insertion not recorded' : `in since ${formatDate(catheterInsertedAt, zone)}`;
  const last = catheter && catheter.event !== 'inserted' ? `last recorded: ${CATHETER_WORDS[catheter.event]}` : null;
  const limit =
    catheter?.breakInLimitMl == null
      ? null
      : `at most ${formatMl(catheter.breakInLimitMl)}${catheter.breakInUntil === null ? '' : ` until ${formatDate(catheter.breakInUntil, zone)}`}`;
  return [{ term: 'Catheter', value: [since, last, limit].filter((one) => one !== null).join('; ') }];
};
