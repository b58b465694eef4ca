import { initialBedside } from '../bedside/initial.ts';
import type { BedsideState, Visit } from '../bedside/state.ts';
import type { FillInside } from '../cavity/cavity.ts';
import { dueOf } from '../dwell/due.ts';
import type { DrainOut, Dwell } from '../dwell/dwell.ts';
import type {
  DwellRule,
  Order,
  OrderContent,
  PrescriptionItem,
  PrescriptionRevision,
} from '../prescription/prescription.ts';
import { STANDARD_FORMULARY } from '../solution/formulary.ts';
import { NO_SUPPLIES } from '../solution/supplies.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { DEFAULT_SETTINGS } from '../ward/settings.ts';
import { NO_LIMITS } from './no-limits.ts';

/** Builders for tests: the least that a case needs, everything else as on an ordinary ward. */
export const policyIn = (zone: string, settings: Partial<WardPolicy['settings']> = {}): WardPolicy => ({
  version: 1,
  zone,
  shiftStarts: ['07:00', '19:00'],
  formulary: STANDARD_FORMULARY,
  supplies: NO_SUPPLIES,
  settings: { ...DEFAULT_SETTINGS, ...settings },
  responses: {},
});

export const LONDON = policyIn('Europe/London');

/** An instant from ISO 8601 with offset. */
export const at = (iso: string): EpochMs => Temporal.Instant.from(iso).epochMilliseconds;

export const item = (id: string, dwell: DwellRule, change: Partial<PrescriptionItem> = {}): PrescriptionItem => ({
  id,
  solutionId: 'glucose-2.27',
  fillMl: 2000,
  additives: [],
  dwell,
  windowMinutes: 0,
  condition: null,
  ...change,
});

export const byLength = (id: string, dwellMinutes: number): PrescriptionItem =>
  item(id, { by: 'length', dwellMinutes });
export const byClock = (id: string, clock: string): PrescriptionItem => item(id, { by: 'clock', at: clock });

export const revisionOf = (
  items: readonly PrescriptionItem[],
  change: Partial<PrescriptionRevision> = {},
): PrescriptionRevision => ({
  id: 'revision',
  number: 1,
  items,
  limits: NO_LIMITS,
  acute: false,
  note: null,
  reviewBy: null,
  prescribedAt: 0,
  prescribedBy: null,
  ...change,
});

export const orderOf = (content: OrderContent, givenAt: EpochMs, change: Partial<Order> = {}): Order => ({
  id: 'order',
  content,
  note: null,
  givenAt,
  givenBy: null,
  telephone: null,
  countersignBy: null,
  countersignedBy: null,
  endedAt: null,
  ...change,
});

export const fillOf = (endedAt: EpochMs, change: Partial<FillInside> = {}): FillInside => ({
  entryId: 'fill',
  visitId: 'visit-before',
  solutionId: 'glucose-2.27',
  filledMl: 2000,
  startedAt: endedAt - 8 * 60_000,
  endedAt,
  revisionId: 'revision',
  itemId: null,
  orderId: null,
  additives: [],
  ...change,
});

export const drainOf = (startedAt: EpochMs, endedAt: EpochMs | null, change: Partial<DrainOut> = {}): DrainOut => ({
  entryId: 'drain',
  visitId: 'visit',
  startedAt,
  endedAt,
  drainedMl: null,
  readingMl: null,
  exactMl: null,
  flow: endedAt === null ? null : 'stopped',
  appearance: [],
  ...change,
});

export const dwellOf = (drains: readonly DrainOut[], change: Partial<Dwell> = {}): Dwell => ({
  id: 'dwell',
  fills: [],
  drains,
  drainedAt: drains.at(-1)?.endedAt ?? null,
  filledMl: null,
  drainedMl: null,
  drainMinusFillMl: null,
  complete: false,
  expectedUfMl: null,
  expectedUfSdMl: null,
  before: initialBedside('patient').inside,
  emptyConfirmed: null,
  imported: false,
  ...change,
});

export const visitOf = (state: Visit['state'], since: EpochMs): Visit => ({
  id: 'visit',
  state,
  since,
  startedAt: since,
  startedBy: null,
  purpose: 'exchange',
  bag: null,
  revisionId: null,
  itemId: null,
  orderId: null,
  drains: [],
  fill: null,
  comfort: null,
  flowMoves: [],
  flowEffects: [],
  closedAt: null,
  stopped: null,
  bagFates: [],
  despiteOrderId: null,
  additiveCheck: null,
});

/** A patient on the ward. `due` follows from the rest. */
export function bedsideOf(change: Partial<BedsideState>, policy: WardPolicy = LONDON): BedsideState {
  const stay = { wardId: 'kestrel', bed: '7', admittedAt: 0, dialysis: 'chronic', offWard: null } as const;
  const state: BedsideState = { ...initialBedside('patient'), stay, ...change };
  return { ...state, due: dueOf(state, policy) };
}

/** A patient who dwells: the newest item filled is `itemId` of `revision`. */
export const dwelling = (
  revision: PrescriptionRevision,
  itemId: string,
  filledAt: EpochMs,
  change: Partial<BedsideState> = {},
  policy: WardPolicy = LONDON,
): BedsideState =>
  bedsideOf(
    {
      cavity: { state: 'holding', since: filledAt, fills: [fillOf(filledAt, { itemId, revisionId: revision.id })] },
      prescription: revision,
      revisionInside: revision,
      lastItemId: itemId,
      ...change,
    },
    policy,
  );
