import type { Solution } from './solution.ts';

/**
 * Composition of the standard fluids. Anhydrous glucose is 1.36, 2.27, 3.86 g per 100 mL where the monohydrate is
 * declared as 1.5, 2.5, 4.25 %; lactate 40, sodium 132, calcium 1.75 mmol/L by product information. The bag excess differs
 * by maker and size (about 100 mL in one maker's 2 L bag: La Milia et al., Perit Dial Int 2017, doi
 * 10.3747/pdi.2017.00004), so it is not known until the ward says so.
 * Bicarbonate fluids and icodextrin (sodium 133, calcium 1.75, lactate buffer): from memory.
 */
const glucose = (
  percent: '1.36' | '2.27' | '3.86',
  dextrose: '1.5' | '2.5' | '4.25',
  glucoseGPerL: number,
): Solution => ({
  id: `glucose-${percent}`,
  label: `${dextrose} % dextrose (${percent} % glucose)`,
  strength: `${dextrose} %`,
  glucoseGPerL,
  icodextrinGPerL: 0,
  buffer: 'lactate',
  calciumMmolPerL: 1.75,
  sodiumMmolPerL: 132,
  bagMl: [1000, 1500, 2000, 2500, 3000],
  bagExcessMl: null,
  chambers: 1,
});

const bicarbonate = (of: Solution): Solution => ({
  ...of,
  id: `bicarbonate-${of.id}`,
  label: `${of.label}, bicarbonate`,
  strength: `${of.strength} bicarbonate`,
  buffer: 'bicarbonate',
  bagMl: [2000, 2500],
  chambers: 2,
});

const LOW = glucose('1.36', '1.5', 13.6);
const MIDDLE = glucose('2.27', '2.5', 22.7);
const HIGH = glucose('3.86', '4.25', 38.6);

/** What a ward starts with; it keeps its own formulary. Strength is text, never a colour. */
export const STANDARD_FORMULARY: readonly Solution[] = [
  LOW,
  MIDDLE,
  HIGH,
  {
    id: 'icodextrin-7.5',
    label: 'icodextrin 7.5 %',
    strength: 'icodextrin 7.5 %',
    glucoseGPerL: 0,
    icodextrinGPerL: 75,
    buffer: 'lactate',
    calciumMmolPerL: 1.75,
    sodiumMmolPerL: 133,
    bagMl: [1500, 2000, 2500],
    bagExcessMl: null,
    chambers: 1,
  },
  bicarbonate(LOW),
  bicarbonate(MIDDLE),
  bicarbonate(HIGH),
];

/** The product with an id; null when the ward does not keep it. */
export const solutionOf = (formulary: readonly Solution[], id: string | null): Solution | null =>
  formulary.find((solution) => solution.id === id) ?? null;
