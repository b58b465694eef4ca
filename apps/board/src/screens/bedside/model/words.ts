import type { Appearance, Comfort, ProbablyInside, SuddenOutflow } from '@slackwater/domain';
import { KEEP_THE_BAG } from '@slackwater/domain/effluent/effluent';
import { formatMinutes, formatMl, formatWhole } from '@slackwater/domain/words/numbers';
import { byWords, type ExpectedOut, expectedWords } from './expected-out.ts';

const roundTo10 = (ml: number): number => Math.round(ml / 10) * 10;

/** Two figures further apart than this are both said (interface rule). */
const APART_ML = 200;

/** "about 200 mL", "by the flow about 200, by the book about 850 mL", "not known". */
export const insideWords = ({ flowMl, bookMl }: ProbablyInside): string => {
  if (flowMl === null || bookMl === null) return 'not known';
  if (Math.abs(flowMl - bookMl) <= APART_ML) return `about ${formatMl(roundTo10(bookMl))}`;
  return `by the flow about ${formatWhole(roundTo10(flowMl))}, by the book about ${formatMl(roundTo10(bookMl))}`;
};

/**
 * A drain compared with both sides in words: with what went in, and with what was expected, which is named.
 * @param outMl drained · @param inMl filled · @param expected null where it is not known
 */
export const comparisonWords = (
  outMl: number,
  inMl: number,
  expected: { out: ExpectedOut; strength: string; dwellMinutes: number } | null,
): string => {
  const withIn =
    outMl === inMl ? 'As much as went in' : `${formatMl(outMl - inMl)} ${outMl > inMl ? 'more' : 'less'} than went in`;
  if (!expected) return `${withIn}. What is expected is not known.`;
  const { out, strength, dwellMinutes } = expected;
  const apart = Math.round((outMl - out.outMl) / 10) * 10;
  const usually =
    out.by.source === 'table'
      ? `what ${strength} usually brings back in ${formatMinutes(dwellMinutes)} ${byWords(out.by)}`
      : `the ${expectedWords(out)} expected ${byWords(out.by)}`;
  if (apart === 0) return `${withIn}, as ${usually}.`;
  return `${withIn}, ${formatMl(apart)} ${apart > 0 ? 'above' : 'below'} ${usually}.`;
};

const APPEARANCE_WORDS: Record<Appearance, string> = {
  clear: 'clear',
  cloudy: 'cloudy',
  fibrin: 'fibrin',
  pink: 'pink',
  bloody: 'bloody',
  milky: 'milky',
  brown: 'brown or faecal',
  green: 'green',
};

export const appearanceWords = (appearance: readonly Appearance[]): string =>
  appearance.map((one) => APPEARANCE_WORDS[one]).join(', ');

/** What "clear, comfortable, as usual" says about comfort. */
export const COMFORTABLE: Comfort = {
  pain: 0,
  phase: null,
  cramp: false,
  breathless: false,
  leakAtExit: false,
  swelling: false,
};

export const isComfortable = (comfort: Comfort): boolean =>
  comfort.pain === 0 &&
  !comfort.cramp &&
  !comfort.breathless &&
  !comfort.leakAtExit &&
  !comfort.swelling &&
  !comfort.sudden?.length;

const PAIN_WORDS: Record<NonNullable<Comfort['phase']>, string> = {
  startOfFill: 'as the fill starts',
  endOfDrain: 'as the drain ends',
  shoulder: 'shoulder',
  newOrConstant: 'new or constant',
};

const SUDDEN_WORDS: Record<SuddenOutflow, string> = {
  urine: 'sudden “urine”',
  wateryStool: 'watery stool',
};

/** "comfortable", or what is not: "pain 4, cramp"; comfortable only if somebody asked for pain. */
export const comfortWords = (comfort: Comfort): string => {
  if (isComfortable(comfort)) return 'comfortable';
  const said = [
    comfort.pain ? `pain ${comfort.pain} of 10${comfort.phase ? `, ${PAIN_WORDS[comfort.phase]}` : ''}` : null,
    comfort.cramp ? 'cramp' : null,
    comfort.breathless ? 'breathless' : null,
    comfort.leakAtExit ? 'leak at the exit' : null,
    comfort.swelling ? ['swelling', ...(comfort.swellingAt ?? [])].join(' ') : null,
    ...(comfort.sudden ?? []).map((one) => SUDDEN_WORDS[one]),
  ];
  return said.filter((one) => one !== null).join(', ') || 'no complaint seen, pain not asked';
};

/** Whether the bag is kept: peritonitis, bowel or bile until excluded. */
export const mustKeep = (appearance: readonly Appearance[]): boolean =>
  appearance.some((one) => KEEP_THE_BAG.includes(one));
