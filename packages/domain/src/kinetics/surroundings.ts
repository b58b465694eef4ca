import { type Membrane, populationMembrane } from './membrane.ts';
import { inOrder, MEAN_PLASMA, type PerSolute, POPULATION } from './parameters.ts';

/** What a dwell runs under; all of it is constant while the dwell lasts. */
export type Surroundings = {
  membrane: Membrane;
  /** mmol/L, in the order of SOLUTES: the inner loop asks for it a thousand times. */
  plasma: Float64Array;
  /** Oncotic pressure of plasma protein, mmHg. */
  proteinOncoticMmHg: number;
  /** Hydrostatic pressure difference at 2,250 mL, mmHg; a fuller cavity pushes back. */
  pressureMmHg: number;
  /** How much more volume lowers it by 1 mmHg, mL. */
  pressureMlPerMmHg: number;
};

/** The mean patient's, but for what is known of this one. */
export const surroundingsOf = ({
  membrane,
  plasmaMmolPerL = MEAN_PLASMA,
}: {
  membrane?: Membrane;
  plasmaMmolPerL?: PerSolute;
} = {}): Surroundings => ({
  membrane: membrane ?? populationMembrane(),
  plasma: inOrder(plasmaMmolPerL),
  proteinOncoticMmHg: POPULATION.proteinOncoticMmHg.value,
  pressureMmHg: POPULATION.pressureMmHg.value,
  pressureMlPerMmHg: POPULATION.pressureMlPerMmHg.value,
});
