/** The numerals' parts: `1 h 05 min` has four, `52 min` two, nothing none. */
const partsOf = (minutes: number | null): readonly string[] => {
  if (minutes === null) return [];
  const whole = Math.floor(minutes);
  const hours = Math.floor(whole / 60);
  return hours === 0 ? [String(whole), 'min'] : [String(hours), 'h', String(whole % 60).padStart(2, '0'), 'min'];
};

/**
 * Writes minutes into an element as numerals (`b`) and units (`i`), touching only what is another.
 *
 * @param minutes whole and fractions, never negative; null = none to show
 */
export const paintMinutes = (element: HTMLElement, minutes: number | null): void => {
  const parts = partsOf(minutes);
  if (element.childElementCount !== parts.length) {
    element.replaceChildren(...parts.map((_, index) => document.createElement(index % 2 === 0 ? 'b' : 'i')));
    element.toggleAttribute('data-hours', parts.length === 4);
  }
  for (const [index, text] of parts.entries()) {
    const part = element.children[index];
    if (part && part.textContent !== text) part.textContent = text;
  }
};
