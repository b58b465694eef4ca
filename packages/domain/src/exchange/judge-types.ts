import type { Role } from '../access/roles.ts';
import type { BedsideState } from '../bedside/state.ts';
import type { Draft, EntryKind } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';

/** What the judge knows beside the state and the draft. */
export type JudgeContext = {
  /** The ward's clock: the database's. */
  now: EpochMs;
  policy: WardPolicy;
  actor: { accountId: string; role: Role };
};

/** One concern of one kind; [] = nothing is wrong. */
export type Judge<K extends EntryKind> = (
  state: BedsideState,
  draft: Draft<K>,
  context: JudgeContext,
) => readonly Problem[];

export const nothing = (): readonly Problem[] => [];

/** A refusal that is about the entry as a whole: its place, not one of its values. */
export const refusal = (code: string, message: string, field = '', value: unknown = null, allowed = ''): Problem => ({
  code,
  field,
  value,
  allowed,
  message,
});
