/** A key as the browser tells of it; a scanner that poses as a keyboard presses them one after the other. */
export type Stroke = { key: string; ctrlKey: boolean };

/** Strokes that came fast after one another. */
export type Run = { text: string; lastAt: number };

export const NO_RUN: Run = { text: '', lastAt: Number.NEGATIVE_INFINITY };

/** Longer than this between two keys, and it was a hand. A scanner needs 2 to 30 ms. (common practice) */
const GAP_MS = 100;
/** Fewer characters are no code. */
const LEAST = 4;
const GS = '\u001d';

/** The separator as scanners press it: the character itself, Ctrl with the closing bracket, or F8. */
export const isSeparator = ({ key, ctrlKey }: Stroke): boolean =>
  key === GS || key === 'F8' || (key === ']' && ctrlKey);

/** The character that a stroke stands for; null where it stands for none. */
const characterOf = (stroke: Stroke): string | null => {
  if (isSeparator(stroke)) return GS;
  return stroke.key.length === 1 && !stroke.ctrlKey ? stroke.key : null;
};

export type Heard = {
  run: Run;
  /** What was scanned, once its Enter came. */
  scan: string | null;
  /** The stroke belongs to a scan: nothing else on the page may act on it. */
  taken: boolean;
};

/**
 * Tells a scanner's strokes from a hand's: characters fast after one another that end with Enter.
 * @param at when the key was pressed, ms
 */
export const hear = (run: Run, stroke: Stroke, at: number): Heard => {
  const isFast = at - run.lastAt <= GAP_MS;
  if (stroke.key === 'Enter') {
    const scan = isFast && run.text.length >= LEAST ? run.text : null;
    return { run: NO_RUN, scan, taken: scan !== null };
  }
  const character = characterOf(stroke);
  // Shift and the like come between the characters of a scan
  if (character === null) return { run: isFast ? { ...run, lastAt: at } : NO_RUN, scan: null, taken: false };
  const text = isFast ? run.text + character : character;
  return { run: { text, lastAt: at }, scan: null, taken: isFast && run.text !== '' };
};
