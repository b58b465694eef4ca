export type Digits = { value: number; problem: null } | { value: null; problem: string | null };

type Range = { least: number; most: number; unit: string };

const withCommas = (value: number): string => value.toLocaleString('en-GB');

/** What a person probably meant by `2,000`, `2.000` or `2e3`, to be shown, never to be taken. */
const suggestion = (text: string): string | null => {
  if (/^\d{1,3}([., ’']\d{3})+$/.test(text)) return text.replace(/\D/g, '');
  const power = /^(\d{1,2})e(\d)$/i.exec(text);
  return power ? String(Number(power[1]) * 10 ** Number(power[2])) : null;
};

/**
 * A whole number typed as digits alone. Group marks and powers are answered with what to write instead, because
 * `2.000` is two for one reader and two thousand for another.
 *
 * @returns the value, or the words that say what is wrong; both null while nothing is typed
 */
export const readDigits = (typed: string, { least, most, unit }: Range): Digits => {
  const text = typed.trim();
  const range = `${withCommas(least)} to ${withCommas(most)} ${unit}`;
  if (text === '') return { value: null, problem: null };
  if (!/^\d+$/.test(text)) {
    const instead = suggestion(text);
    return {
      value: null,
      problem: instead ? `“${text}”: write ${instead}.` : `“${text}” is not digits alone. Write ${range}.`,
    };
  }
  const value = Number(text);
  if (value < least || value > most) {
    return { value: null, problem: `${withCommas(value)} ${unit} is not possible here: ${range}.` };
  }
  return { value, problem: null };
};
