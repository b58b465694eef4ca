import { IDENTIFIERS } from './identifiers.ts';
import type { LabelProblem } from './label.ts';

/** `17` → "Expiry (17)". */
const named = (ai: string): string => `${IDENTIFIERS.get(ai)?.means ?? 'Element'} (${ai})`;

/** The separator has no sign of its own: shown as a symbol where a person reads it. */
const shown = (text: string): string => text.replaceAll('\u001d', '␝');

/** What is wrong with a label, in a sentence, with the value and what is allowed. */
export function labelProblemWords(problem: LabelProblem): string {
  switch (problem.is) {
    case 'empty':
      return 'Nothing was read.';
    case 'notGs1':
      return `“${shown(problem.text)}” is not a GS1 code.`;
    case 'brackets':
      return `At character ${problem.at} an identifier in brackets should begin, such as (17).`;
    case 'unknownIdentifier':
      return `“${shown(problem.text)}” at character ${problem.at} is no identifier of GS1.`;
    case 'checkDigit':
      return `Wrong check digit: ${named(problem.ai)} ${problem.value} ends with ${problem.found}, its other digits ask for ${problem.shouldBe}. A digit was read or typed wrong.`;
    case 'impossibleDate':
      return `Impossible date: ${named(problem.ai)} ${problem.value} has a ${problem.wrong} that does not exist; allowed is ${problem.allowed}.`;
    case 'wrongCharacter':
      return `“${shown(problem.character)}” cannot stand in ${named(problem.ai)}; allowed are ${problem.allowed}.`;
    case 'tooLong':
      return `Too long: ${named(problem.ai)} has ${problem.value.length} characters; allowed are at most ${problem.most}.`;
    case 'tooShort':
      return `Too short: ${named(problem.ai)} has ${problem.value.length} characters; ${problem.least} are needed.`;
    case 'separatorMissing':
      return problem.tail === null
        ? `A separator is missing: ${named(problem.ai)} runs on into what follows.`
        : `A separator may be missing: ${named(problem.ai)} reads ${shown(problem.value)}, and “${shown(problem.tail)}” at its end looks like another element.`;
    case 'contradiction':
      return `${named(problem.ai)} stands twice, as ${shown(problem.values[0])} and as ${shown(problem.values[1])}.`;
  }
}
