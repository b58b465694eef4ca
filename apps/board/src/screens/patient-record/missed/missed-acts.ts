import type { EntryView } from '@slackwater/contract';
import type { Additive, Appearance, BagInHand, EpochMs, Override, Payloads } from '@slackwater/domain';
import { STEPS } from '@slackwater/domain/exchange/steps';
import { type Act, act } from '../../bedside/model/batch.ts';

/** A whole exchange that was done and not recorded, as it is told afterwards. */
export type Missed = {
  /** Why nobody was called before a strong bag; null where none had to be. */
  called: Payloads['calledFirst'] | null;
  drain: {
    startedAt: EpochMs;
    endedAt: EpochMs;
    drainedMl: number | null;
    appearance: readonly Appearance[];
    flow: 'stopped' | 'notStopped';
    method: 'jug' | 'bagMarks';
    /** Whether she says that the bag was discarded; if not, its fate stays open at the bedside. */
    discarded: boolean;
  } | null;
  fill: {
    startedAt: EpochMs;
    endedAt: EpochMs;
    bag: BagInHand;
    /** Of the bag: more than one are mixed. */
    chambers: number;
    filledMl: number | null;
    prescribedMl: number;
    /** By whose word another fluid was given than the item says. */
    override: Override | null;
    revisionId: string | null;
    itemId: string | null;
    additives: readonly Additive[];
    /** Who checked what was added, by name; '' where nothing was. */
    secondPerson: string;
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

/**
 * All entries of the visit, in their order, each at the time it happened. The checks of patient and bag are what the
 * form had her state; comfort is left out, since nobody asked for it here.
 */
export const missedActs = ({ drain, fill, called }: Missed): readonly Act[] => {
  const begins = drain?.startedAt ?? fill?.startedAt ?? 0;
  const ends = fill?.endedAt ?? drain?.endedAt ?? begins;
  const purpose = drain && fill ? 'exchange' : drain ? 'drainOnly' : 'fillOnly';
  const bag = fill?.bag ?? null;
  const checks = bag
    ? { noLeak: true, clear: true, warmed: true, sealWhole: true, mixed: (fill?.chambers ?? 1) > 1 ? true : null }
    : null;
  const revisionId = fill?.revisionId ?? null;
  const itemId = fill?.itemId ?? null;
  return [
    ...(called ? [act('calledFirst', called, begins)] : []),
    act(
      'prepare',
      {
        purpose,
        identifiers: ['name', 'dateOfBirth'],
        bag,
        revisionId,
        itemId,
        orderId: null,
        bagChecks: checks,
        override: fill?.override ?? null,
      },
      begins,
    ),
    act('connect', {}, begins),
    ...(drain
      ? [
          act('startDrain', {}, drain.startedAt),
          act('appearance', { drain: 1, appearance: drain.appearance, note: 'entered afterwards' }, drain.endedAt),
          act('endDrain', { flow: drain.flow }, drain.endedAt),
          ...(drain.drainedMl === null
            ? []
            : [
                act(
                  'measure',
                  {
                    drain: 1,
                    role: 'exact',
                    flushIncluded: false,
                    flushMl: 0,
                    method: drain.method,
                    volumeMl: drain.drainedMl,
                  },
                  drain.endedAt,
                ),
              ]),
        ]
      : []),
    ...(fill
      ? [
          act(
            'startFill',
            {
              bag: fill.bag,
              revisionId,
              itemId,
              orderId: null,
              prescribedMl: fill.prescribedMl,
              additives: fill.additives,
              ...(fill.additives.length > 0 ? { afterwards: { secondPerson: fill.secondPerson } } : {}),
              flushMl: 0,
              sealBroken: true,
              noLeak: true,
              guardOverride: null,
            },
            fill.startedAt,
          ),
          act(
            'endFill',
            { infused: fill.filledMl === null ? { basis: 'notKnown' } : { basis: 'stated', volumeMl: fill.filledMl } },
            fill.endedAt,
          ),
        ]
      : []),
    act('close', { leftEmpty: fill === null }, ends),
    ...(drain?.discarded ? [act('bagFate', { drain: 1, fate: 'discarded' }, ends)] : []),
  ];
};
