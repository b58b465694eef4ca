import type { BoardRow } from '@slackwater/domain';
import { expect, it } from 'vitest';
import { insideWords } from './inside-words.ts';

const words = { ml: (ml: number) => `${ml} mL`, whole: String, clock: () => '09:15' };
const fill = (ml: number | null) => ({ filledMl: ml, endedAt: 1 }) as never;
const holding = (filled: number | null, flowMl: number | null, bookMl: number | null, visit: unknown = null) =>
  ({
    cavity: { state: 'holding', since: 0, fills: [fill(filled)] },
    inside: { flowMl, bookMl, flowVarianceMl2: null },
    insideStrength: '2.5 %',
    visit,
    cycle: null,
    next: null,
  }) as unknown as BoardRow;

it('says volume, strength and since when for fluid that dwells', () => {
  expect(insideWords(holding(2000, 200, 150), words)).toEqual({
    first: '2000 mL',
    second: 'dwelling from 09:15',
    strength: '2.5 %',
    decides: false,
  });
});

it('gives one figure when the two agree, both by name when they do not', () => {
  const drained = { state: 'drained' };
  expect(insideWords(holding(2000, 203, 350, drained), words).first).toBe('about 200 mL');
  const apart = insideWords(holding(2000, 200, 851, drained), words);
  expect([apart.first, apart.second]).toEqual(['by the flow about 200,', 'by the book about 850 mL']);
});

it('names what it was filled onto', () => {
  expect(insideWords(holding(2000, 610, 700), words).second).toBe('onto about 610 mL');
  expect(insideWords(holding(2000, 610, 1130), words).second).toBe('onto 610 flow, 1130 book');
});

it('never turns an unknown volume into a number', () => {
  expect(insideWords(holding(null, null, null), words).first).toBe('volume unknown');
  expect(insideWords(holding(2000, null, null, { state: 'drained' }), words).first).toBe('not known');
});
