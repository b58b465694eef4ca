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
    element.replaceChildren(...parts.map((text, index) => made(index % 2 === 0 ? 'b' : 'i', text)));
    element.toggleAttribute('data-hours', parts.length === 4);
  }
  for (const [index, text] of parts.entries()) {
    // the text itself is changed, not put in anew: no style is then asked for
    const part = element.children[index]?.firstChild;
    if (part && part.nodeValue !== text) part.nodeValue = text;
  }
};

const made = (tag: 'b' | 'i', text: string): HTMLElement => {
  const part = document.createElement(tag);
  part.append(text);
  return part;
};
