import { adequacyOf } from '../../../packages/domain/src/adequacy/adequacy.ts';
import { DAY_TO_DAY_CV, dayToDayBand } from '../../../packages/domain/src/adequacy/band.ts';
import { bodySurfaceM2 } from '../../../packages/domain/src/adequacy/body-surface.ts';
import { bodyWaterL } from '../../../packages/domain/src/adequacy/body-water.ts';
import { clearanceLPerWeek } from '../../../packages/domain/src/adequacy/clearance.ts';
import { nextAdequacyDue } from '../../../packages/domain/src/adequacy/next-due.ts';
import { proteinAppearance, ureaNitrogenAppearanceGPerDay } from '../../../packages/domain/src/adequacy/nitrogen.ts';
import { againstTarget } from '../../../packages/domain/src/adequacy/targets.ts';
import { convert } from '../../../packages/domain/src/units/convert.ts';
import type { Computations } from '../rows.ts';

export const ADEQUACY: Computations = {
  bodyWaterL: ({ formula, body }) => bodyWaterL(formula, body),
  bodySurfaceM2: ({ formula, body }) => bodySurfaceM2(formula, body),
  adequacy: adequacyOf,
  ureaNitrogen: ureaNitrogenAppearanceGPerDay,
  protein: ({ formula, input }) => proteinAppearance(formula, input),
  ktV: ({ sampledMl, hours, concentration, plasma, bodyWaterL: litres }) =>
    clearanceLPerWeek({ sampledMl, hours }, concentration, plasma) / litres,
  ktVOfMlPerMin: ({ mlPerMin, bodyWaterL: litres }) => convert(mlPerMin, 'mL/min', 'L/wk').value! / litres,
  dayToDayBand: ({ value, of }: { value: number; of: keyof typeof DAY_TO_DAY_CV }) =>
    dayToDayBand(value, DAY_TO_DAY_CV[of]),
  againstTarget: ({ test, urineMlPerDay }) => againstTarget(adequacyOf(test).value!, urineMlPerDay),
  nextDue: nextAdequacyDue,
};
