import type { Payloads, WardPolicy } from '@slackwater/domain';
import { additivesWords, orderedAdditivesWords } from '@slackwater/domain/prescription/additive-words';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { orderProblems } from '@slackwater/domain/prescription/order-problems';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMinutes, formatMl } from '@slackwater/domain/words/numbers';
import { type Duration, readDuration } from '../../prescription/read-duration.ts';
import {
  missingOfTelephone,
  NO_TELEPHONE,
  type TelephoneDraft,
  telephoneOf,
} from '../../prescription/telephone-fields.tsx';

/** An order by telephone for one exchange, as it is typed while the physician speaks. */
export type ExchangeDraft = TelephoneDraft & {
  note: string;
  /** Carried over from what is prescribed, to be read back and changed; '' = by the clock. */
  dwell: string;
  /** What was to be put in: nobody but the physician says whether it still is. */
  additives: 'kept' | 'leftOut' | null;
};

export const exchangeDraft = ({ dwellMinutes }: NextBag): ExchangeDraft => ({
  ...NO_TELEPHONE,
  note: '',
  dwell: dwellMinutes === null ? '' : formatMinutes(dwellMinutes),
  additives: null,
});

/** A change of what is ordered: what was read back before was something else. */
export const withChange = (draft: ExchangeDraft, part: Partial<ExchangeDraft>): ExchangeDraft => ({
  ...draft,
  ...('dwell' in part || 'additives' in part ? { readBack: false } : {}),
  ...part,
});

export const readDwell = ({ dwell }: ExchangeDraft, { settings }: WardPolicy): Duration =>
  readDuration(dwell, settings.dwellLeastMinutes, settings.dwellMostMinutes);

const additivesOf = ({ additives }: ExchangeDraft, wanted: NextBag): NextBag['additives'] =>
  additives === 'kept' ? wanted.additives : [];

const additivesSaid = ({ additives }: ExchangeDraft, wanted: NextBag): string => {
  if (wanted.additives.length === 0) return 'nothing added';
  if (additives === 'kept') return `with ${orderedAdditivesWords(wanted.additives)}`;
  const what = additivesWords(wanted.additives);
  return additives === 'leftOut' ? `without ${what}` : `${what} kept or left out?`;
};

/** What is read back to the physician: all that the order says, also what it leaves out. */
export const readBackWords = (
  draft: ExchangeDraft,
  wanted: NextBag,
  bag: { solutionId: string; fillMl: number | null },
  policy: WardPolicy,
): string => {
  const { minutes } = readDwell(draft, policy);
  const strength = solutionOf(policy.formulary, bag.solutionId)?.strength ?? bag.solutionId;
  return [
    `${bag.fillMl === null ? 'the fill' : formatMl(bag.fillMl)} of ${strength}`,
    minutes === null ? 'to dwell by the clock as prescribed' : `to dwell ${formatMinutes(minutes)}`,
    additivesSaid(draft, wanted),
  ].join(', ');
};

type Read = { payload: Payloads['ordered']; missing: null } | { payload: null; missing: string };

/**
 * The order as it goes into the record, or what is still missing of it or wrong with it.
 * @param wanted what would be hung without the order
 * @param bag what the physician allows; `fillMl` null = not typed yet
 */
export const readExchange = (
  draft: ExchangeDraft,
  wanted: NextBag,
  bag: { solutionId: string; fillMl: number | null },
  policy: WardPolicy,
): Read => {
  const { minutes, problem } = readDwell(draft, policy);
  const byClock = minutes === null && wanted.dwellMinutes === null && draft.dwell.trim() === '';
  const missing = [
    bag.fillMl === null ? 'the volume' : null,
    problem !== null || (minutes === null && !byClock) ? 'the dwell' : null,
    wanted.additives.length > 0 && draft.additives === null ? 'whether the additives are kept' : null,
    ...missingOfTelephone(draft),
  ].filter((one) => one !== null);
  const telephone = telephoneOf(draft);
  if (missing.length > 0 || bag.fillMl === null || telephone === null)
    return { payload: null, missing: `missing: ${missing.join(', ')}` };
  const leftOut = draft.additives === 'leftOut' ? `Left out by this order: ${additivesWords(wanted.additives)}.` : '';
  const payload: Payloads['ordered'] = {
    content: {
      what: 'oneExchange',
      solutionId: bag.solutionId,
      fillMl: bag.fillMl,
      dwellMinutes: minutes,
      additives: additivesOf(draft, wanted),
    },
    note: [draft.note.trim(), leftOut].filter(Boolean).join(' ') || null,
    telephone,
  };
  const [wrong] = orderProblems(payload, policy);
  return wrong === undefined ? { payload, missing: null } : { payload: null, missing: wrong.message };
};
