/**
 * Solute through one pore, by diffusion and with the water, positive into the cavity, µmol/min:
 * J = q·(Cp − C·e^−Pe)/(1 − e^−Pe), Pe = q/PS (Patlak, from memory).
 * The limits are part of it: no water (Pe → 0), water far faster than diffusion (|Pe| large, PS = 0).
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
  const peclet = q / psMlPerMin;
  if (Math.abs(peclet) < 1e-6 || (q === 0 && psMlPerMin === 0)) {
    return psMlPerMin * (plasmaMmolPerL - cavityMmolPerL) + (q * (plasmaMmolPerL + cavityMmolPerL)) / 2;
  }
  if (peclet > 700) return q * plasmaMmolPerL;
  if (peclet < -700) return q * cavityMmolPerL;
  const lost = Math.expm1(-peclet);
  return (q * (plasmaMmolPerL - cavityMmolPerL * (1 + lost))) / -lost;
}
