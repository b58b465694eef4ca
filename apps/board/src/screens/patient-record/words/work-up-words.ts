import type { CellCountUnit, Payloads, SampleTest, WorkUpConclusion } from '@slackwater/domain';
import { cultureWords } from '@slackwater/domain/peritonitis/work-up-words';
import { formatIsoDate, formatMinutes } from '@slackwater/domain/words/numbers';
import { appearanceWords } from '../../bedside/model/words.ts';
import { type Said, said } from './said.ts';

export const TEST_WORDS: Record<SampleTest, string> = {
  cellCount: 'cell count with differential',
  gramStain: 'Gram stain',
  culture: 'culture',
  triglyceride: 'triglyceride',
  amylase: 'amylase',
};

export const UNIT_WORDS: Record<CellCountUnit, string> = {
  '/uL': '/µL',
  '10*6/L': '× 10⁶/L',
  '10*9/L': '× 10⁹/L',
  '10*3/uL': '× 10³/µL',
};

export const CONCLUSION_WORDS: Record<WorkUpConclusion, string> = {
  peritonitis: 'peritonitis',
  notPeritonitis: 'not peritonitis',
  other: 'another cause',
};

const dwelt = (minutes: number | null): string =>
  minutes === null ? 'dwell not known' : `dwell ${formatMinutes(minutes)}`;

const ANSWERS_WORDS: Record<Payloads['antibioticStarted']['answers'], string> = {
  yes: 'the organism answers to it',
  no: 'the organism does not answer to it',
  notKnown: 'not known yet whether the organism answers to it',
};

type Kind = 'workUpOpened' | 'sampleTaken' | 'resultReported' | 'antibioticStarted' | 'workUpClosed';

/** The words of a suspected peritonitis in the record. */
export const WORK_UP_TELLING: { [K in Kind]: (payload: Payloads[K]) => Said } = {
  workUpOpened: ({ appearance, dwellMinutes }) =>
    said('Suspected peritonitis: work-up opened', [`effluent ${appearanceWords(appearance)}`, dwelt(dwellMinutes)]),
  sampleTaken: ({ tests, bottles, beforeAntibiotic, dwellMinutes, bagKeptWhere, note }) =>
    said('Sample taken', [
      tests.map((test) => TEST_WORDS[test]).join(', '),
      `${bottles} blood-culture ${bottles === 1 ? 'bottle' : 'bottles'}`,
      beforeAntibiotic ? 'before any antibiotic' : 'after an antibiotic',
      dwelt(dwellMinutes),
      bagKeptWhere && `bag kept: ${bagKeptWhere}`,
      note,
    ]),
  resultReported: ({ whiteCells, polymorphPercent, gramStain, culture, note }) =>
    said('Result reported', [
      whiteCells && `white cells ${whiteCells.value} ${UNIT_WORDS[whiteCells.unit]}`,
      polymorphPercent !== null && `${polymorphPercent} % polymorphs`,
      gramStain && `Gram stain: ${gramStain}`,
      culture && cultureWords(culture),
      note,
    ]),
  antibioticStarted: ({ what, startedOn, answers, note }) =>
    said(`Antibiotic ${what} since ${formatIsoDate(startedOn)}`, [ANSWERS_WORDS[answers], note]),
  workUpClosed: ({ conclusion, reason }) => said(`Work-up concluded: ${CONCLUSION_WORDS[conclusion]}`, [reason]),
};
