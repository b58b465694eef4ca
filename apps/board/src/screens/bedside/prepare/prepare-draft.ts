import type { BagInHand, BedsideState, DespiteOrder, Override, Payloads } from '@slackwater/domain';

export type Purpose = Payloads['prepare']['purpose'];

/** What the nurse looks at by eye and hand. */
export type EyeCheck = 'wristband' | 'expiry' | 'noLeak' | 'clear' | 'warmed' | 'mixed';

/** What stands on the prepare screen and not yet in the record. */
export type PrepareDraft = {
  purpose: Purpose | null;
  bag: { solutionId: string; labelledMl: number } | null;
  /** As typed; '' = read by eye only. */
  expiresOn: string;
  lot: string;
  notSo: readonly EyeCheck[];
  /** Who was called before a strong bag; goes into the record with the preparation. */
  called: Payloads['calledFirst'] | null;
  /** Going on against a stop, and for which bag: another one is stopped anew. Left out: nobody did. */
  override?: Override & { bag: string };
  /** Going on against an order to stay empty, and which one. Left out: nobody did. */
  despite?: DespiteOrder;
  /** Expiry and lot are to be typed. */
  typing: boolean;
  /** What the scanner sent of this bag; left out where nothing was scanned, or something was typed over it. */
  label?: string;
  /** Whose wristband was scanned; left out: none was. */
  wristband?: { whose: 'this' } | { whose: 'other'; bed: string | null };
};

export const EMPTY_PREPARE: PrepareDraft = {
  purpose: null,
  bag: null,
  expiresOn: '',
  lot: '',
  notSo: [],
  called: null,
  typing: false,
};

/** What tells one bag in hand from another. */
export const bagKey = ({ solutionId, labelledMl, expiresOn, lot }: BagInHand): string =>
  JSON.stringify([solutionId, labelledMl, expiresOn, lot]);

/** What was said to go on with this very bag; null: nothing was. */
export const overrideOf = ({ override }: PrepareDraft, bag: BagInHand | null): Override | null => {
  if (override === undefined || bag === null || override.bag !== bagKey(bag)) return null;
  const { reason, physician } = override;
  return { reason, physician };
};

/** What the visit is for, unless the nurse says otherwise: an empty cavity is filled, a held patient only drained. */
export const proposedPurpose = (state: BedsideState, hasBag: boolean): Purpose => {
  if (state.cavity.state === 'empty') return 'fillOnly';
  const stayEmpty = state.orders.some((order) => order.content.what === 'drainAndStayEmpty' && order.endedAt === null);
  return hasBag && !stayEmpty ? 'exchange' : 'drainOnly';
};

/** The draft with something typed over what was scanned: it is then typed, and the scan is no witness of it. */
export const typedOver = ({ label: _, ...draft }: PrepareDraft, part: Partial<PrepareDraft>): PrepareDraft => ({
  ...draft,
  ...part,
});
