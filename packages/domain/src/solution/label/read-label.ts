import { firstOutside, SET_WORDS } from './character-sets.ts';
import { checkDigitOf } from './check-digit.ts';
import { readLabelDate } from './dates.ts';
import { IDENTIFIERS, identifierAt } from './identifiers.ts';
import type { Label, LabelElement, LabelProblem, LabelReading } from './label.ts';
import { GS, splitBracketed, splitElements } from './split.ts';

/**
 * Symbology identifiers (ISO/IEC 15424) that announce element strings: GS1-128, DataBar, DataMatrix, QR, DotCode; from
 * memory of the GS1 General Specifications.
 */
const ELEMENT_CARRIERS: ReadonlySet<string> = new Set([']C1', ']e0', ']d2', ']Q3', ']J1']);
/** Those that announce a plain product code: EAN-13 and UPC, EAN-8, ITF-14. */
const CODE_CARRIERS: ReadonlySet<string> = new Set([']E0', ']E4', ']I1']);

const CARRIER = /^\][A-Za-z]\d/;
const PRODUCT_CODE = /^(\d{8}|\d{12,14})$/;

/**
 * Reads what a scanner sent, or what was typed from a label, strictly: a wrong check digit, an impossible date or a
 * missing separator is said, never mended. Pure; never throws, whatever the text.
 *
 * Takes element strings with the separator GS (ASCII 29), with or without a symbology identifier such as `]d2`; the form
 * in brackets `(01)…(17)…(10)…`; and a plain product code of 8, 12, 13 or 14 digits.
 * @param thisYear for the century of two-digit years: the ward's year, e.g. 2026
 */
export function readLabel(scanned: string, thisYear: number): LabelReading {
  const text = trimmed(scanned);
  if (text === '') return unreadable([{ is: 'empty' }]);
  const carrier = CARRIER.exec(text)?.[0] ?? '';
  const announcesElements = ELEMENT_CARRIERS.has(carrier);
  const rest = text.slice(carrier.length);
  if ((carrier === '' || CODE_CARRIERS.has(carrier)) && PRODUCT_CODE.test(rest)) return readProductCode(rest, carrier);
  if (carrier !== '' && !announcesElements) return notGs1(text);
  // Some scanners send the symbol's first function character as a separator.
  const offset = carrier.length + (rest.startsWith(GS) ? 1 : 0);
  const elements = text.slice(offset);
  if (elements.startsWith('(')) return labelOf(splitBracketed(elements, offset), thisYear);
  if (offset === 0 && identifierAt(text, 0) === null) return notGs1(text);
  return labelOf(splitElements(elements, offset), thisYear);
}

/** Without the blanks and line ends around it; the separator, which JavaScript does not count among them, stays. */
const trimmed = (scanned: string): string => scanned.replace(/^[ \t\r\n]+|[ \t\r\n]+$/g, '');

const unreadable = (problems: readonly [LabelProblem, ...LabelProblem[]]): LabelReading => ({
  is: 'unreadable',
  problems,
});

const notGs1 = (text: string): LabelReading => unreadable([{ is: 'notGs1', text }]);

function readProductCode(code: string, carrier: string): LabelReading {
  const problem = checkDigitProblem({ ai: '01', value: code, at: carrier.length + 1 }, code.length);
  return problem === null ? { is: 'productCode', gtin: code.padStart(14, '0') } : unreadable([problem]);
}

function labelOf({ elements, problem }: ReturnType<typeof splitElements>, thisYear: number): LabelReading {
  const found = [...elements.flatMap((element) => valueProblems(element, thisYear)), ...contradictions(elements)];
  const [first, ...others] = problem === null ? found : [...found, problem];
  if (first !== undefined) return unreadable([first, ...others]);
  if (elements.length === 0) return unreadable([{ is: 'empty' }]);
  return { is: 'label', label: saidBy(elements, thisYear) };
}

/** What is wrong with the characters, the check digit or the date of one value. */
function valueProblems(element: LabelElement, thisYear: number): readonly LabelProblem[] {
  const { ai, value, at } = element;
  let from = 0;
  for (const part of IDENTIFIERS.get(ai)?.parts ?? []) {
    const to = Math.min(value.length, from + part.most);
    const outside = firstOutside(part.set, value, from, to);
    if (outside !== -1) {
      const character = value[outside] as string;
      return [{ is: 'wrongCharacter', ai, value, at: at + outside, character, allowed: SET_WORDS[part.set] }];
    }
    const problem =
      part.holds === 'check'
        ? checkDigitProblem(element, to)
        : part.holds === 'date'
          ? dateProblem(element, thisYear)
          : null;
    if (problem !== null) return [problem];
    from = to;
  }
  return [];
}

/** @param end how many characters of the value belong to the key, the check digit being the last of them */
function checkDigitProblem({ ai, value, at }: LabelElement, end: number): LabelProblem | null {
  const found = value[end - 1] as string;
  const shouldBe = String(checkDigitOf(value.slice(0, end - 1)));
  return found === shouldBe ? null : { is: 'checkDigit', ai, value, at: at + end - 1, found, shouldBe };
}

function dateProblem({ ai, value, at }: LabelElement, thisYear: number): LabelProblem | null {
  const read = readLabelDate(value, thisYear);
  if ('date' in read) return null;
  return { is: 'impossibleDate', ai, value, at: at + (read.wrong === 'month' ? 2 : 4), ...read };
}

/** An identifier may be repeated with the same value; with another one nobody knows which is right. */
function contradictions(elements: readonly LabelElement[]): readonly LabelProblem[] {
  const first = new Map<string, string>();
  return elements.flatMap(({ ai, value }): readonly LabelProblem[] => {
    const before = first.get(ai);
    if (before === undefined) first.set(ai, value);
    return before === undefined || before === value ? [] : [{ is: 'contradiction', ai, values: [before, value] }];
  });
}

function saidBy(elements: readonly LabelElement[], thisYear: number): Label {
  const said = (ai: string): string | null => elements.find((element) => element.ai === ai)?.value ?? null;
  const dateOf = (ai: string) => {
    const digits = said(ai);
    const read = digits === null ? null : readLabelDate(digits, thisYear);
    return read !== null && 'date' in read ? read.date : null;
  };
  const count = said('30');
  return {
    gtin: said('01'),
    lot: said('10'),
    expiresOn: dateOf('17'),
    madeOn: dateOf('11'),
    serial: said('21'),
    count: count === null ? null : Number(count),
    elements,
  };
}
