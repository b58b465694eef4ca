import type { PatientLimits } from '@slackwater/domain';

type Weighed = { weightKg: number; weightCavity: 'full' | 'empty' | null };
type Target = Pick<PatientLimits, 'weightTargetKg' | 'weightTargetCavity'>;

/**
 * A weight beside its target, in words that follow it; empty without a target. A full cavity weighs what was filled: a
 * weight is compared with a target of the same kind only, and of another it is said that they are not alike.
 */
export function besideTarget({ weightKg, weightCavity }: Weighed, target: Target): string {
  const { weightTargetKg: targetKg, weightTargetCavity: cavity } = target;
  if (targetKg === null) return '';
  if (cavity !== weightCavity) return `; the target of ${targetKg} kg is for the cavity ${cavity}: not compared`;
  const apartKg = Math.round((weightKg - targetKg) * 10) / 10;
  if (apartKg === 0) return `; at the target of ${targetKg} kg`;
  return `; ${Math.abs(apartKg)} kg ${apartKg > 0 ? 'above' : 'below'} the target of ${targetKg} kg`;
}
