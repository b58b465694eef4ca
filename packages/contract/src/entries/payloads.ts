import type { EntryKind, Payloads } from '@slackwater/domain';
import type { z } from 'zod';
import { ALERT_PAYLOADS } from './alerts.ts';
import { CORRECTION_PAYLOADS, WARD_PAYLOADS } from './corrections.ts';
import { OBSERVATION_PAYLOADS } from './observations.ts';
import { PRESCRIPTION_PAYLOADS } from './prescriptions.ts';
import { STAY_PAYLOADS } from './stay.ts';
import { ADDITIVE_CHECK_PAYLOADS, STEP_PAYLOADS } from './steps.ts';
import { WORK_UP_PAYLOADS } from './work-ups.ts';

/** Kinds that only the tool itself writes: the wire refuses them from everybody. */
export type ToolKind = 'alertRaised' | 'alertEscalated' | 'workUpOpened' | 'imported' | 'identityChanged' | 'erased';

/** Kinds that a person may write. */
export type AuthoredKind = Exclude<EntryKind, ToolKind>;

/** The schema of every payload that a person may write; a missing or a differing one does not compile. */
export const PAYLOAD_SCHEMAS = {
  ...STEP_PAYLOADS,
  ...ADDITIVE_CHECK_PAYLOADS,
  ...OBSERVATION_PAYLOADS,
  ...STAY_PAYLOADS,
  ...PRESCRIPTION_PAYLOADS,
  ...WORK_UP_PAYLOADS,
  ...ALERT_PAYLOADS,
  ...CORRECTION_PAYLOADS,
  ...WARD_PAYLOADS,
} satisfies { [K in AuthoredKind]: z.ZodType<Payloads[K]> };

type Mutable<T> = T extends string | number | boolean | null | undefined
  ? T
  : { -readonly [P in keyof T]: Mutable<T[P]> };

/** Nothing that the domain allows is refused by its schema's type, narrowings on purpose aside. */
type Accepted = {
  [K in Exclude<AuthoredKind, 'alertCleared'>]: Mutable<Payloads[K]> extends Mutable<
    z.input<(typeof PAYLOAD_SCHEMAS)[K]>
  >
    ? true
    : K;
}[Exclude<AuthoredKind, 'alertCleared'>];
true satisfies [Accepted] extends [true] ? true : Accepted;
