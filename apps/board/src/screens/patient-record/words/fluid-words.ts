import type { FillSaid, FluidHandover, FluidSaid } from '@slackwater/domain';
import { additivesWords } from '@slackwater/domain/prescription/additive-words';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { insideWords } from '../../bedside/model/words.ts';
import type { Words } from './said.ts';

/** "2,000 mL of 2.5 % dextrose (2.27 % glucose)", and in words what of it is not known. */
const fillSaidWords = ({ filledMl, solutionId }: FillSaid, { formulary }: Words): string => {
  const volume = filledMl === null ? 'volume unknown' : formatMl(filledMl);
  // The whole label: elsewhere 1.5 % alone may be taken for the anhydrous glucose.
  const label = solutionOf(formulary, solutionId)?.label ?? solutionId;
  return label === null ? `${volume}, strength unknown` : `${volume} of ${label}`;
};

/** When a fill went in, what was added, one line a fill. */
const fillWords = (fill: FillSaid, words: Words): string =>
  [
    fillSaidWords(fill, words),
    fill.additives.length > 0 ? `with ${additivesWords(fill.additives)}` : null,
    fill.endedAt === null ? 'time of the fill unknown' : `in at ${words.clock(fill.endedAt)}`,
  ]
    .filter((one) => one !== null)
    .join(', ');

export type FluidFact = { term: string; value: string };

/** What is told of the fluid inside, term by term; unknown is said as unknown. `words.clock` with the date, on paper. */
export const fluidFacts = (said: FluidSaid, words: Words): readonly FluidFact[] => [
  ...(said.cavity === 'unknown'
    ? [{ term: 'Inside', value: 'not known: the cavity may hold fluid' }]
    : said.fills.map((fill, index) => ({
        term: said.fills.length === 1 ? 'Inside' : `Inside, fill ${index + 1}`,
        value: fillWords(fill, words),
      }))),
  {
    term: said.cavity === 'unknown' ? 'Probably inside' : 'Probably left before it went in',
    value: insideWords({ flowMl: said.leftMl.flow, bookMl: said.leftMl.book, flowVarianceMl2: null }),
  },
  {
    term: 'To be drained',
    value: said.drainDueAt === null ? 'no time is prescribed: ask' : `at ${words.clock(said.drainDueAt)}`,
  },
];

/** The handover of the fluid in one line, for the record. */
export const handoverWords = ({ toWhom, said }: FluidHandover, words: Words): string =>
  `told ${toWhom}: ${fluidFacts(said, words)
    .map(({ term, value }) => `${term.toLowerCase()} ${value}`)
    .join('; ')}`;
