export type Decimal = { value: number; problem: null } | { value: null; problem: string | null };

/**
 * A number that may carry a decimal point (kg, °C, mmol/L). A comma is answered with what to write: it means different
 * things to different people.
 */
export const readDecimal = (
  typed: string,
  { least, most, unit }: { least: number; most: number; unit: string },
): Decimal => {
  const text = typed.trim();
  if (text === '') return { value: null, problem: null };
  if (!/^\d{1,6}(\.\d{1,3})?$/.test(text)) {
    const instead = text.replace(',', '.');
    const meant = /^\d{1,6}(\.\d{1,3})?$/.test(instead);
    return {
      value: null,
      problem: meant ? `“${text}”: write ${instead}.` : `“${text}” is not a number. Write ${least} to ${most} ${unit}.`,
    };
  }
  const value = Number(text);
  if (value < least || value > most)
    return { value: null, problem: `${text} ${unit} is not possible here: ${least} to ${most} ${unit}.` };
  return { value, problem: null };
};
