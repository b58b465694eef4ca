import { hidesElements } from './hidden-elements.ts';
import { type Identifier, identifierAt } from './identifiers.ts';
import type { LabelElement, LabelProblem } from './label.ts';

/** The separator between elements as scanners send it: ASCII 29, "group separator". */
export const GS = '\u001d';

/** Elements in the order of the label; the problem ends the reading, since what follows cannot be told apart any more. */
export type Split = { elements: readonly LabelElement[]; problem: LabelProblem | null };

/**
 * Splits element strings into identifiers and values: one of predefined length ends by itself, every other at the
 * separator or the end. Source: GS1 General Specifications, "Processing of data from a GS1 symbology".
 * @param offset characters that stood before `text` in the scan
 */
export function splitElements(text: string, offset: number): Split {
  const elements: LabelElement[] = [];
  let at = 0;
  while (at < text.length) {
    const identifier = identifierAt(text, at);
    if (identifier === null) {
      const problem = { is: 'unknownIdentifier', at: offset + at + 1, text: text.slice(at, at + 4) } as const;
      return { elements, problem };
    }
    const start = at + identifier.ai.length;
    const separator = text.indexOf(GS, start);
    const limit = separator === -1 ? text.length : separator;
    const end = identifier.predefined ? Math.min(limit, start + identifier.most) : limit;
    const value = text.slice(start, end);
    const problem = lengthProblem(identifier, value, separator !== -1);
    if (problem !== null) return { elements, problem };
    elements.push({ ai: identifier.ai, value, at: offset + start + 1 });
    // A separator behind a predefined length is needless, and no fault.
    at = text[end] === GS ? end + 1 : end;
  }
  return { elements, problem: runningOn(elements) };
}

const BRACKETS = /\((\d{2,4})\)/y;
const NEXT_BRACKETS = /\(\d{2,4}\)/g;

/** Splits the form that people read and type: `(01)…(17)…(10)…`. Blanks around a value are not part of it. */
export function splitBracketed(text: string, offset: number): Split {
  const elements: LabelElement[] = [];
  let at = 0;
  while (at < text.length) {
    BRACKETS.lastIndex = at;
    const ai = BRACKETS.exec(text)?.[1];
    if (ai === undefined) return { elements, problem: { is: 'brackets', at: offset + at + 1 } };
    const identifier = identifierAt(ai, 0);
    if (identifier?.ai !== ai) {
      return { elements, problem: { is: 'unknownIdentifier', at: offset + at + 2, text: ai } };
    }
    const start = at + ai.length + 2;
    NEXT_BRACKETS.lastIndex = start;
    const end = NEXT_BRACKETS.exec(text)?.index ?? text.length;
    const value = text.slice(start, end).trim();
    const problem = lengthProblem(identifier, value, true);
    if (problem !== null) return { elements, problem };
    elements.push({ ai, value, at: offset + start + 1 });
    at = end;
  }
  return { elements, problem: null };
}

/** @param ended whether something marks the end of the value: else a value that is too long has run into the next one */
function lengthProblem({ ai, least, most }: Identifier, value: string, ended: boolean): LabelProblem | null {
  if (value.length < least) return { is: 'tooShort', ai, value, least };
  if (value.length <= most) return null;
  return ended ? { is: 'tooLong', ai, value, most } : { is: 'separatorMissing', ai, value, tail: null };
}

/** Whether a value of varying length seems to hold what should be the next element. */
function runningOn(elements: readonly LabelElement[]): LabelProblem | null {
  const read = new Set(elements.map(({ ai }) => ai));
  for (const { ai, value } of elements) {
    const tail = hidesElements(ai, value, read);
    if (tail !== null) return { is: 'separatorMissing', ai, value, tail };
  }
  return null;
}
