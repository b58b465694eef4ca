import type { ExitSite } from '../peritonitis/exit-site.ts';
import { exitSiteFinding } from '../peritonitis/exit-site.ts';
import type { Appearance, Comfort } from './effluent.ts';

/** What may be found of the effluent, the patient and the exit site, the gravest first. Each has a response. */
export const FINDINGS = [
  'brown',
  'green',
  'suddenUrine',
  'wateryStool',
  'breathless',
  'cloudy',
  'severePain',
  'milky',
  'bloody',
  'exitSiteInfection',
  'leakAtExit',
  'swelling',
  'newOrConstantPain',
  'pink',
  'fibrin',
  'cramp',
  'painAtFill',
  'painAtDrainEnd',
  'shoulderPain',
  'exitSiteSigns',
] as const;

export type Finding = (typeof FINDINGS)[number];

const inOrder = (found: readonly Finding[]): readonly Finding[] => FINDINGS.filter((one) => found.includes(one));

/** What an appearance asks for, the gravest first; clear asks for nothing. */
export const findingsOfAppearance = (appearance: readonly Appearance[]): readonly Finding[] =>
  inOrder(appearance.filter((one) => one !== 'clear'));

const PAIN_PHASE = {
  startOfFill: 'painAtFill',
  endOfDrain: 'painAtDrainEnd',
  shoulder: 'shoulderPain',
  newOrConstant: 'newOrConstantPain',
} as const satisfies Record<NonNullable<Comfort['phase']>, Finding>;

/** What the patient's comfort asks for, the gravest first; pain that nobody asked for is no finding. */
export function findingsOfComfort(
  comfort: Comfort,
  { severePainFrom }: { severePainFrom: number },
): readonly Finding[] {
  const pain = comfort.pain ?? 0;
  const found: (Finding | false)[] = [
    comfort.breathless && 'breathless',
    comfort.cramp && 'cramp',
    comfort.leakAtExit && 'leakAtExit',
    (comfort.swelling || (comfort.swellingAt?.length ?? 0) > 0) && 'swelling',
    pain >= severePainFrom && 'severePain',
    pain > 0 && comfort.phase !== null && PAIN_PHASE[comfort.phase],
    comfort.sudden?.includes('urine') === true && 'suddenUrine',
    comfort.sudden?.includes('wateryStool') === true && 'wateryStool',
  ];
  return inOrder(found.filter((one) => one !== false));
}

/** What a word on comfort is about: a visit's drain or fill, or between visits the word itself. */
export const causeOfComfort = (entryId: string, visitId: string | null, when: 'drain' | 'fill' | 'between'): string =>
  visitId === null ? entryId : `${visitId}/${when}`;

/** What the look of an exit site asks for: a score under the limit with any sign at all is a finding too. */
export function findingsOfExitSite(site: ExitSite): readonly Finding[] {
  const found = exitSiteFinding(site).value;
  if (found === null) return [];
  if (found.finding === 'infection') return ['exitSiteInfection'];
  return found.score > 0 ? ['exitSiteSigns'] : [];
}
