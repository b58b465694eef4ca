import { describe, expect, it } from 'vitest';
import { hear, NO_RUN, type Stroke } from './wedge.ts';

const GS = '\u001d';
const strokes = (text: string): Stroke[] => [...text].map((key) => ({ key, ctrlKey: false }));

/** Presses keys so many ms apart; what came out as a scan, and how many strokes were taken from the page. */
const press = (keys: readonly Stroke[], apartMs: number) => {
  let run = NO_RUN;
  let scan: string | null = null;
  let taken = 0;
  keys.forEach((key, index) => {
    const heard = hear(run, key, index * apartMs);
    run = heard.run;
    scan = heard.scan ?? scan;
    taken += heard.taken ? 1 : 0;
  });
  return { scan, taken };
};
const ENTER = { key: 'Enter', ctrlKey: false };

describe('a scanner that poses as a keyboard', () => {
  it('is heard by its pace, and its Enter presses nothing', () => {
    expect(press([...strokes('01095212'), ENTER], 10)).toEqual({ scan: '01095212', taken: 8 });
  });
  it('sends capitals with Shift between them', () => {
    const keys = [...strokes('10'), { key: 'Shift', ctrlKey: false }, ...strokes('AB'), ENTER];
    expect(press(keys, 10).scan).toBe('10AB');
  });
  it.each([
    ['the character itself', [{ key: GS, ctrlKey: false }]],
    [
      'Ctrl and the bracket',
      [
        { key: 'Control', ctrlKey: true },
        { key: ']', ctrlKey: true },
      ],
    ],
    ['F8', [{ key: 'F8', ctrlKey: false }]],
  ])('sends the separator as %s', (_, separator) => {
    expect(press([...strokes('10AB'), ...separator, ...strokes('17'), ENTER], 10).scan).toBe(`10AB${GS}17`);
  });
  it('a hand is not one: its keys stay its own', () => {
    expect(press([...strokes('12345678'), ENTER], 150)).toEqual({ scan: null, taken: 0 });
    expect(press([...strokes('12'), ENTER], 10).scan).toBeNull();
  });
});
