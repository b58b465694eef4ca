import { sameAdditives } from '../prescription/additive.ts';
import type { Payloads } from '../record/entry.ts';
import type { EpochMs } from '../time/instant.ts';

/** A check of what is in the bag: asked for one coming fill, and what the second person said. Used up by that fill. */
export type AdditiveCheck = Payloads['additiveCheckAsked'] & {
  /** The entry that asked. */
  askedId: string;
  askedAt: EpochMs;
  askedBy: string | null;
  checked: SecondPerson | null;
};

export type SecondPerson = {
  by: string | null;
  at: EpochMs;
  /** By the database's clock: from here it holds for the ward's time. */
  receivedAt: EpochMs;
  agrees: boolean;
  note: string | null;
};

type Filled = Pick<Payloads['startFill'], 'bag' | 'prescribedMl' | 'additives'>;

/** Whether a fill is the very one that was asked about: this entry, this bag, these additives, this much. */
export const isCheckedFill = (check: AdditiveCheck, fillId: string, fill: Filled): boolean =>
  check.fillId === fillId &&
  check.prescribedMl === fill.prescribedMl &&
  check.bag.solutionId === fill.bag.solutionId &&
  check.bag.labelledMl === fill.bag.labelledMl &&
  check.bag.lot === fill.bag.lot &&
  check.bag.expiresOn === fill.bag.expiresOn &&
  sameAdditives(check.additives, fill.additives);

/** Whether somebody is waited for: asked, and not answered yet. */
export const waitsForSecondPerson = (check: AdditiveCheck | null): check is AdditiveCheck & { checked: null } =>
  check !== null && check.checked === null;

/** Until when a check holds; null while nobody agreed. */
export const checkHoldsUntil = (check: AdditiveCheck | null, secondPersonMinutes: number): EpochMs | null =>
  check?.checked?.agrees ? check.checked.receivedAt + secondPersonMinutes * 60_000 : null;
