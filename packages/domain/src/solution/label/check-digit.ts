/**
 * The check digit of a GS1 key: modulo 10 with weights 3 and 1 from the right. It catches every single wrong digit, since
 * neither weight shares a factor with 10. Source: GS1 General Specifications, "Check digit calculations".
 * @param digits the key without its check digit, digits alone
 * @returns 0 to 9
 */
export function checkDigitOf(digits: string): number {
  let sum = 0;
  let weight = 3;
  for (let index = digits.length - 1; index >= 0; index -= 1) {
    sum += weight * (digits.charCodeAt(index) - 48);
    weight = 4 - weight;
  }
  return (10 - (sum % 10)) % 10;
}

/** Whether a key of digits ends with its right check digit. */
export const hasRightCheckDigit = (key: string): boolean =>
  /^\d{2,}$/.test(key) && checkDigitOf(key.slice(0, -1)) === Number(key.at(-1));
