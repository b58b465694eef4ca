import type { Problem } from '../../record/problem.ts';
import { firstOutside, SET_WORDS } from './character-sets.ts';

/** Most characters of a lot (AI 10). */
const LOT_MOST = 20;

/** How lots are compared: a capital more or a blank does not make another lot of one that was recalled. */
export const lotKey = (lot: string): string => lot.replaceAll(/\s/g, '').toUpperCase();

/** What is wrong with a lot as it was typed or scanned, by the rules of AI 10; null = nothing. */
export function lotProblem(field: string, lot: string): Problem | null {
  const allowed = `1 to ${LOT_MOST} characters: ${SET_WORDS.X}`;
  const outside = firstOutside('X', lot);
  if (lot.length >= 1 && lot.length <= LOT_MOST && outside === -1) return null;
  const why = outside === -1 ? `has ${lot.length} characters` : `holds “${lot[outside]}”, which cannot stand in a lot`;
  return { code: 'lot', field, value: lot, allowed, message: `The lot “${lot}” ${why}; allowed is ${allowed}.` };
}
