export type Duration = { minutes: number; problem: null } | { minutes: null; problem: string | null };

const FORMS: readonly { of: RegExp; minutes: (match: RegExpExecArray) => number }[] = [
  { of: /^(\d{1,2})\s*h\s*(\d{1,2})\s*(?:min)?$/, minutes: ([, hours, rest]) => Number(hours) * 60 + Number(rest) },
  { of: /^(\d{1,2})\s*h$/, minutes: ([, hours]) => Number(hours) * 60 },
  { of: /^(\d{1,4})\s*min$/, minutes: ([, minutes]) => Number(minutes) },
];

/** Reads a length as people write it: `4 h 30 min`, `4 h`, `90 min`. A bare number is asked about: hours or minutes? */
export const readDuration = (typed: string, least: number, most: number): Duration => {
  const text = typed.trim().toLowerCase();
  if (text === '') return { minutes: null, problem: null };
  for (const { of, minutes } of FORMS) {
    const match = of.exec(text);
    if (!match) continue;
    const value = minutes(match);
    if (value >= least && value <= most) return { minutes: value, problem: null };
    return { minutes: null, problem: `${typed.trim()} is not possible here: ${least} min to ${most / 60} h.` };
  }
  return { minutes: null, problem: `“${typed.trim()}”: write 4 h 30 min, 4 h or 90 min.` };
};
