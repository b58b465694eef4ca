import type { EntryView } from '@slackwater/contract';
import type { Additive, Appearance, BagInHand, Comfort, EpochMs, Override, Payloads } from '@slackwater/domain';
import { STEPS } from '@slackwater/domain/exchange/steps';
import { type Act, act } from '../../bedside/model/batch.ts';

/** A whole exchange that was done and not recorded, as it is told afterwards. null: nobody watched it, or not known. */
export type Missed = {
  /** Name and birth date were held against the wristband. */
  patientChecked: boolean;
  comfort: Comfort | null;
  drain: {
    startedAt: EpochMs;
    endedAt: EpochMs;
    measured: { volumeMl: number; method: 'jug' | 'bagMarks' } | null;
    appearance: readonly Appearance[] | null;
    flow: 'stopped' | 'notStopped' | null;
    /** Whether she says that the bag was discarded; if not, its fate stays open at the bedside. */
    discarded: boolean;
  } | null;
  fill: {
    startedAt: EpochMs;
    endedAt: EpochMs;
    bag: BagInHand;
    /** Of the bag: more than one are mixed. */
    chambers: number;
    bagChecked: boolean;
    /** The outlet seal was broken, and no leak seen. */
    sealChecked: boolean;
    flushMl: number | null;
    filledMl: number | null;
    prescribedMl: number;
    /** By whose word another fluid was given than the item says. */
    override: Override | null;
    revisionId: string | null;
    itemId: string | null;
    additives: readonly Additive[];
    /** Who checked what was added, by name; null where nothing was. */
    secondPerson: string | null;
  } | null;
};

const STEP_KINDS: ReadonlySet<string> = new Set(STEPS);

/** The last step before an instant: what a visit that is entered into a gap follows. null: none was recorded before. */
export const stepBefore = (entries: readonly EntryView[], at: EpochMs): string | null => {
  let found: EntryView | null = null;
  for (const entry of entries) {
    if (!STEP_KINDS.has(entry.kind) || entry.retractedBy !== null || entry.happenedAt > at) continue;
    if (
      !found ||
      entry.happenedAt > found.happenedAt ||
      (entry.happenedAt === found.happenedAt && entry.position > found.position)
    )
      found = entry;
  }
  return found?.id ?? null;
};

/** When the visit begins: with its drain, else with its fill. */
export const beginsAt = ({ drain, fill }: Missed): EpochMs => drain?.startedAt ?? fill?.startedAt ?? 0;

/**
 * All entries of the visit, in their order, each at the time it happened: what the form had her state, and what nobody
 * watched as just that.
 * @param called why nobody was called before a strong bag; null where nobody had to be
 */
export const missedActs = (missed: Missed, called: Payloads['calledFirst'] | null): readonly Act[] => {
  const { drain, fill, comfort } = missed;
  const begins = beginsAt(missed);
  const ends = fill?.endedAt ?? drain?.endedAt ?? begins;
  const felt = act('comfort', { phase: drain ? 'drain' : 'fill', comfort }, drain?.endedAt ?? ends);
  return [
    ...(called ? [act('calledFirst', called, begins)] : []),
    act('prepare', prepared(missed), begins),
    act('connect', {}, begins),
    ...(drain ? [...drainActs(drain), felt] : []),
    ...(fill ? fillActs(fill) : []),
    ...(drain ? [] : [felt]),
    act('close', { leftEmpty: fill === null }, ends),
    ...(drain?.discarded ? [act('bagFate', { drain: 1, fate: 'discarded' }, ends)] : []),
  ];
};

const prepared = ({ drain, fill, patientChecked }: Missed): Payloads['prepare'] => {
  const seen = fill?.bagChecked ? true : null;
  const mixed = fill !== null && fill.chambers > 1 ? seen : null;
  return {
    purpose: drain && fill ? 'exchange' : drain ? 'drainOnly' : 'fillOnly',
    identifiers: patientChecked ? ['name', 'dateOfBirth'] : null,
    bag: fill?.bag ?? null,
    revisionId: fill?.revisionId ?? null,
    itemId: fill?.itemId ?? null,
    orderId: null,
    bagChecks: fill ? { noLeak: seen, clear: seen, warmed: seen, sealWhole: seen, mixed } : null,
    override: fill?.override ?? null,
    afterwards: true,
  };
};

const drainActs = ({
  startedAt,
  endedAt,
  appearance,
  flow,
  measured,
}: NonNullable<Missed['drain']>): readonly Act[] => [
  act('startDrain', {}, startedAt),
  act('appearance', { drain: 1, appearance, note: 'entered afterwards' }, endedAt),
  act('endDrain', { flow }, endedAt),
  ...(measured
    ? [act('measure', { drain: 1, role: 'exact', flushIncluded: false, flushMl: 0, ...measured }, endedAt)]
    : []),
];

const fillActs = (fill: NonNullable<Missed['fill']>): readonly Act[] => {
  const { bag, revisionId, itemId, prescribedMl, additives, flushMl, filledMl, secondPerson } = fill;
  const seen = fill.sealChecked ? true : null;
  const filling: Payloads['startFill'] = {
    bag,
    revisionId,
    itemId,
    orderId: null,
    prescribedMl,
    additives,
    flushMl,
    sealBroken: seen,
    noLeak: seen,
    guardOverride: null,
    afterwards: { secondPerson },
  };
  const infused: Payloads['endFill']['infused'] =
    filledMl === null ? { basis: 'notKnown' } : { basis: 'stated', volumeMl: filledMl };
  return [act('startFill', filling, fill.startedAt), act('endFill', { infused }, fill.endedAt)];
};
