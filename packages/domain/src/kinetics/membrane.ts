import { POPULATION } from './parameters.ts';

/** One person's membrane. */
export type Membrane = {
  /** Ultrafiltration coefficient, mL/min/mmHg. */
  lpSMlPerMinPerMmHg: number;
  /** A0/dx, cm. */
  areaOverLengthCm: number;
  lymphMlPerMin: number;
};

/**
 * The population's membrane for a body surface; pressure, residual and fill do not scale.
 * @param bodySurfaceM2 m², > 0
 */
export function populationMembrane(bodySurfaceM2: number = POPULATION.bodySurfaceM2.value): Membrane {
  const size = bodySurfaceM2 / POPULATION.bodySurfaceM2.value;
  return {
    lpSMlPerMinPerMmHg: POPULATION.lpSMlPerMinPerMmHg.value * size,
    areaOverLengthCm: POPULATION.areaOverLengthCm.value * size,
    lymphMlPerMin: POPULATION.lymphMlPerMin.value * size,
  };
}
