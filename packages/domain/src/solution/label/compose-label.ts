import { IDENTIFIERS } from './identifiers.ts';
import type { LabelElement } from './label.ts';
import { GS } from './split.ts';

/** Elements as a scanner sends them: the other way round from `readLabel`. */
export function composeLabel(elements: readonly Pick<LabelElement, 'ai' | 'value'>[]): string {
  return elements
    .map(({ ai, value }, index) => {
      const isLast = index === elements.length - 1;
      return `${ai}${value}${isLast || IDENTIFIERS.get(ai)?.predefined ? '' : GS}`;
    })
    .join('');
}
