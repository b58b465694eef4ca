import { type Membrane, populationMembrane } from './membrane.ts';
import { MEAN_PLASMA, type PerSolute, POPULATION } from './parameters.ts';

/** What a dwell runs under; all of it is constant while the dwell lasts. */
export type Surroundings = {
  membrane: Membrane;
  plasmaMmolPerL: PerSolute;
  /** Oncotic pressure of plasma protein, mmHg. */
  proteinOncoticMmHg: number;
  /** Hydrostatic pressure difference at 2,250 mL, mmHg; a fuller cavity pushes back. */
  pressureMmHg: number;
  /** How much more volume lowers it by 1 mmHg, mL. */
  pressureMlPerMmHg: number;
};

/** The mean patient's, but for what is known of this one. */
export const surroundingsOf = ({ membrane, plasmaMmolPerL }: Partial<Surroundings> = {}): Surroundings => ({
  membrane: membrane ?? populationMembrane(),
  plasmaMmolPerL: plasmaMmolPerL ?? MEAN_PLASMA,
  proteinOncoticMmHg: POPULATION.proteinOncoticMmHg.value,
  pressureMmHg: POPULATION.pressureMmHg.value,
  pressureMlPerMmHg: POPULATION.pressureMlPerMmHg.value,
});
