import { convert } from '../../../packages/domain/src/units/convert.ts';
import { SUBSTANCES, type SubstanceName } from '../../../packages/domain/src/units/substances.ts';
import type { Computations } from '../rows.ts';

type Conversion = { value: number; from: string; to: string; substance?: SubstanceName };

export const UNITS: Computations = {
  convert: ({ value, from, to, substance }: Conversion) => convert(value, from, to, substance && SUBSTANCES[substance]),
  molarMass: ({ substance }: { substance: SubstanceName }) => SUBSTANCES[substance].molarMassGPerMol,
};
