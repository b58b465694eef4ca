import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { type Body, checkBody } from './body.ts';

export type BodySurfaceFormula = 'duBois' | 'gehanGeorge' | 'haycock' | 'mosteller';

/** Body surface in m² from centimetres and kilograms. */
const FORMULAS: Record<BodySurfaceFormula, (cm: number, kg: number) => number> = {
  /** DuBois & DuBois, Arch Intern Med 1916;17:863. */
  duBois: (cm, kg) => 0.007184 * kg ** 0.425 * cm ** 0.725,
  /** Gehan & George, Cancer Chemother Rep 1970;54:225. */
  gehanGeorge: (cm, kg) => 0.0235 * cm ** 0.42246 * kg ** 0.51456,
  /** Haycock, Schwartz & Wisotsky, J Pediatr 1978;93:62. */
  haycock: (cm, kg) => 0.024265 * cm ** 0.3964 * kg ** 0.5378,
  /** Mosteller, N Engl J Med 1987;317:1098. */
  mosteller: (cm, kg) => Math.sqrt((cm * kg) / 3600),
};

/** The surface to which clearances are normalised, m². */
const STANDARD_SURFACE_M2 = 1.73;

/**
 * Body surface area, m².
 * @param body height 30 to 250 cm, weight 1 to 350 kg, cavity empty
 */
export const bodySurfaceM2 = (
  formula: BodySurfaceFormula,
  body: Pick<Body, 'heightCm' | 'weightKg'>,
): Computed<number> =>
  unlessRefused(checkBody({ ...body, sex: 'female', ageYears: null }), () =>
    computed(FORMULAS[formula](body.heightCm, body.weightKg)),
  );

/** A clearance (any unit) per 1.73 m². */
export const perStandardSurface = (clearance: number, surfaceM2: number): number =>
  (clearance * STANDARD_SURFACE_M2) / surfaceM2;
