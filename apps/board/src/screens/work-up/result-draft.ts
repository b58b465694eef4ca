import type { CellCountUnit, Culture, Payloads } from '@slackwater/domain';
import { cellsPerUl } from '@slackwater/domain/peritonitis/cell-count-units';
import { readDecimal } from '../observations/read-decimal.ts';

export type ResultDraft = {
  whiteCells: string;
  unit: CellCountUnit | null;
  polymorphs: string;
  gramStain: string;
  culture: 'notInReport' | 'pending' | 'sterile' | 'grown';
  organisms: string;
  sampleId: string | null;
  note: string;
};

export const NO_RESULT: ResultDraft = {
  whiteCells: '',
  unit: null,
  polymorphs: '',
  gramStain: '',
  culture: 'notInReport',
  organisms: '',
  sampleId: null,
  note: '',
};

export const CELLS = { least: 0, most: 1_000_000, unit: '' };
export const PERCENT = { least: 0, most: 100, unit: '%' };

/** Above this a count is asked about: a unit a thousand times too large looks so (the tool's own rule). */
const ASKS_ABOVE_PER_UL = 20_000;

const organismsOf = (typed: string): readonly string[] =>
  typed
    .split(',')
    .map((one) => one.trim())
    .filter((one) => one !== '');

function cultureOf({ culture, organisms }: ResultDraft): Culture | null {
  if (culture === 'notInReport') return null;
  return culture === 'grown' ? { state: 'grown', organisms: organismsOf(organisms) } : { state: culture };
}

/** What was typed of a report: its payload, the count in cells/µL, and what is still missing. */
export function readResult(draft: ResultDraft, workUpId: string) {
  const cells = readDecimal(draft.whiteCells, CELLS);
  const percent = readDecimal(draft.polymorphs, PERCENT);
  const perUl = cells.value === null || draft.unit === null ? null : cellsPerUl(cells.value, draft.unit).value;
  const payload: Payloads['resultReported'] = {
    workUpId,
    sampleId: draft.sampleId,
    whiteCells: cells.value === null || draft.unit === null ? null : { value: cells.value, unit: draft.unit },
    polymorphPercent: percent.value,
    gramStain: draft.gramStain.trim() || null,
    culture: cultureOf(draft),
    note: draft.note.trim() || null,
  };
  const { whiteCells, polymorphPercent, gramStain, culture, note } = payload;
  const missing = [
    cells.problem || percent.problem ? 'a possible number' : null,
    cells.value !== null && draft.unit === null ? 'the unit of the count' : null,
    polymorphPercent !== null && cells.value === null ? 'the count' : null,
    perUl !== null && perUl > CELLS.most ? 'a possible count: look at its unit' : null,
    culture?.state === 'grown' && culture.organisms.length === 0 ? 'what has grown' : null,
    [whiteCells, polymorphPercent, gramStain, culture, note].every((one) => one === null) ? 'a result' : null,
  ].filter((one) => one !== null);
  return { payload, perUl, asks: perUl !== null && perUl > ASKS_ABOVE_PER_UL, missing };
}
