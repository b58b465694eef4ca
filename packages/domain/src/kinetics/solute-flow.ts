/** Below this the flow is a straight line in Pe; the next term of the series is Pe/12 of it. */
const SMALL_PECLET = 1e-6;

/**
 * Solute through one pore, by diffusion and with the water, positive into the cavity, µmol/min (Patlak, from memory):
 * J = q·(Cp − C·e^−Pe)/(1 − e^−Pe), Pe = q/PS; written here as q·Cp + q·(Cp − C)/(e^Pe − 1), which runs into its limits
 * q·Cp and q·C by itself when water is far faster than diffusion (Pe → ±∞, PS = 0). Only Pe → 0 needs its own line.
 * @param waterMlPerMin q, the water that can carry the solute: flow × (1 − σ), mL/min
 * @param psMlPerMin permeability surface product, mL/min, ≥ 0
 * @param plasmaMmolPerL Cp, ≥ 0
 * @param cavityMmolPerL C, ≥ 0
 */
export function soluteFlow(
  waterMlPerMin: number,
  psMlPerMin: number,
  plasmaMmolPerL: number,
  cavityMmolPerL: number,
): number {
  const q = waterMlPerMin;
  if (Math.abs(q) <= SMALL_PECLET * psMlPerMin) {
    return psMlPerMin * (plasmaMmolPerL - cavityMmolPerL) + (q * (plasmaMmolPerL + cavityMmolPerL)) / 2;
  }
  return q * plasmaMmolPerL + (q * (plasmaMmolPerL - cavityMmolPerL)) / Math.expm1(q / psMlPerMin);
}
