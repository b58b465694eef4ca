import type { Problem } from '../record/problem.ts';

/** A number outside its range, as a problem that names field, value and range; null when it is inside. */
export function outOfRange(field: string, value: number, min: number, max: number, unit: string): Problem | null {
  if (Number.isFinite(value) && value >= min && value <= max) return null;
  const allowed = `${min} to ${max} ${unit}`.trim();
  return { code: 'out-of-range', field, value, allowed, message: `${field} is ${value}; allowed is ${allowed}.` };
}
