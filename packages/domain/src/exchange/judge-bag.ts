import { may } from '../access/permissions.ts';
import type { Draft, Override } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { labelProblemWords } from '../solution/label/label-words.ts';
import { lotKey } from '../solution/label/lot.ts';
import { readLabel } from '../solution/label/read-label.ts';
import { recallOf, recallsOfUnreadLot } from '../solution/recalled.ts';
import type { BagInHand } from '../solution/solution.ts';
import { productOf } from '../solution/supplies.ts';
import { dateAt } from '../time/zone.ts';
import { type JudgeContext, refusal } from './judge-types.ts';

type When = Pick<Draft, 'happenedAt'>;

/** The product code that the scanned label of a bag names; null where none was scanned or it names none. */
function scannedGtin(bag: BagInHand, { happenedAt }: When, { policy }: JudgeContext): string | null {
  if (bag.label === undefined) return null;
  const read = readLabel(bag.label, yearOf(happenedAt, policy.zone));
  if (read.is === 'productCode') return read.gtin;
  return read.is === 'label' ? read.label.gtin : null;
}

const yearOf = (at: number, zone: string): number => Number(dateAt(at, zone).slice(0, 4));

/** What a scan says and what the entry says are the same: nobody types over a label that was read. */
export function labelProblems(bag: BagInHand, when: When, context: JudgeContext): readonly Problem[] {
  const { policy } = context;
  if (bag.label === undefined) {
    if (bag.read === 'typed') return [];
    return [refusal('missing', 'A scanned bag keeps what the scanner sent.', 'payload.bag.label')];
  }
  const read = readLabel(bag.label, yearOf(when.happenedAt, policy.zone));
  if (read.is === 'unreadable') {
    return [refusal('bag-label', labelProblemWords(read.problems[0]), 'payload.bag.label', bag.label, 'a GS1 label')];
  }
  const product = productOf(policy.supplies, scannedGtin(bag, when, context));
  const said = read.is === 'label' ? read.label : { lot: null, expiresOn: null };
  return [
    ...differing('lot', bag.lot, said.lot),
    ...differing('expiresOn', bag.expiresOn, said.expiresOn),
    ...differing('solutionId', bag.solutionId, product?.solutionId ?? null),
    ...differing('labelledMl', bag.labelledMl, product?.labelledMl ?? null),
  ];
}

function differing(field: keyof BagInHand, stated: unknown, scanned: unknown): readonly Problem[] {
  if (scanned === null || scanned === stated) return [];
  const message = `The label was scanned as ${scanned}, and ${field} is ${stated}: scan the bag again.`;
  return [refusal('bag-label', message, `payload.bag.${field}`, stated, String(scanned))];
}

/** Going on against a stop of the bag check: by right of role, with a written reason. */
export const isOverridden = (override: Override | null, { actor }: Pick<JudgeContext, 'actor'>): boolean =>
  override !== null && override.reason.trim() !== '' && may(actor.role, 'overrideGuard');

export const BY_ROLE = 'an override by a charge nurse or nephrologist with a reason';

/** An expired bag stops. No order by telephone makes it the right one. */
export function expiredProblems(bag: BagInHand, { happenedAt }: When, { policy }: JudgeContext): readonly Problem[] {
  const today = dateAt(happenedAt, policy.zone);
  if (bag.expiresOn === null || bag.expiresOn >= today) return [];
  const message = `The bag expired on ${bag.expiresOn}: take another one.`;
  return [refusal('bag-expired', message, 'payload.bag.expiresOn', bag.expiresOn, `${today} or later, or ${BY_ROLE}`)];
}

/**
 * A recalled lot stops, and so does a lot that nobody read while one of this solution is recalled. No order by telephone
 * makes a recalled bag the right one.
 */
export function recallProblems(bag: BagInHand, when: When, context: JudgeContext): readonly Problem[] {
  const { policy } = context;
  const gtin = scannedGtin(bag, when, context);
  const recall = recallOf(bag, gtin, policy.supplies, when.happenedAt);
  const allowed = `another lot, or ${BY_ROLE}`;
  if (recall !== null) {
    const message = `Lot ${bag.lot} is recalled: ${recall.reason}. Take another bag.`;
    return [refusal('bag-recalled', message, 'payload.bag.lot', bag.lot, allowed)];
  }
  const unread = recallsOfUnreadLot(bag, gtin, policy.supplies, when.happenedAt);
  if (unread.length === 0) return [];
  const lots = unread.map(({ lot }) => lot).join(', ');
  const message = `Lot ${lots} of this solution is recalled, and the lot of this bag was not read.`;
  return [refusal('bag-lot-unread', message, 'payload.bag.lot', null, allowed)];
}

/** Whether two descriptions are of the same bag: what was checked at the start is what hangs on the pole. */
export const isSameBag = (one: BagInHand | null, other: BagInHand): boolean =>
  one !== null &&
  one.solutionId === other.solutionId &&
  one.expiresOn === other.expiresOn &&
  (one.lot === null ? other.lot === null : other.lot !== null && lotKey(one.lot) === lotKey(other.lot));
