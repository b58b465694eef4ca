import { type EpochMs, plusMinutes } from '../time/instant.ts';
import type { WardSettings } from '../ward/settings.ts';
import type { EscalatedTo, OpenAlert } from './alert.ts';

/** Who has an alert at an instant: an acknowledgement ends by itself, and then it is nobody's again. */
export const ownerAt = ({ owner }: OpenAlert, at: EpochMs): string | null =>
  owner !== null && at < owner.until ? owner.accountId : null;

/** Since when, or from when on, nobody has it: raised, acknowledged or snoozed until. */
const unownedFrom = (alert: OpenAlert): EpochMs =>
  Math.max(alert.raisedAt, alert.owner?.until ?? 0, alert.snoozedUntil ?? 0);

const STEPS: readonly { to: EscalatedTo; after: 'escalateToChargeNurseMinutes' | 'escalateToPhysicianMinutes' }[] = [
  { to: 'chargeNurse', after: 'escalateToChargeNurseMinutes' },
  { to: 'physician', after: 'escalateToPhysicianMinutes' },
];

/**
 * The steps up that an alert has still to take, with their instants, if nobody takes it: high ones only. It never goes
 * back a step.
 */
export function stepsUp(alert: OpenAlert, settings: WardSettings): readonly { to: EscalatedTo; at: EpochMs }[] {
  if (alert.rank !== 'high') return [];
  const taken = STEPS.findIndex((step) => step.to === alert.escalatedTo);
  const from = unownedFrom(alert);
  return STEPS.slice(taken + 1).map(({ to, after }) => ({ to, at: plusMinutes(from, settings[after]) }));
}
