import type { BedsideState, EpochMs, WardPolicy } from '@slackwater/domain';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { readDigits } from '../../../ui/digits.ts';
import { readComfort } from '../../bedside/model/comfort-draft.ts';
import { COMFORTABLE, mustKeep } from '../../bedside/model/words.ts';
import { typedLotProblem } from '../../bedside/prepare/bag-details.tsx';
import { readInstant, type TypedInstant } from '../../bedside/shared/typed-instant.ts';
import type { Missed } from './missed-acts.ts';
import type { MissedDraft, Watched } from './missed-draft.ts';

type Around = { state: BedsideState; policy: WardPolicy; mayOverride: boolean };

/** A missed exchange, or what is still missing of it. What nobody watched is null, never a word that nobody said. */
export type ReadMissed = { missed: Missed; missing: null } | { missed: null; missing: string };

type Part<T> = { value: T | null; missing: readonly string[] };

const part = <T>(value: T | null, missing: readonly (string | null | false)[]): Part<T> => {
  const left = missing.filter((one): one is string => typeof one === 'string');
  return { value: left.length === 0 ? value : null, missing: left };
};

/** Reads the form. */
export const readMissed = (draft: MissedDraft, around: Around): ReadMissed => {
  const none = { value: null, missing: [] };
  const drain = draft.kind === 'fill' ? none : readDrain(draft, around);
  const fill = draft.kind === 'drain' ? none : readFill(draft, around);
  const felt = readComfort(draft.felt);
  const missing = [
    ...timesMissing(draft, around.policy.zone),
    ...drain.missing,
    ...fill.missing,
    draft.patient === null ? 'whether the patient was checked' : null,
    draft.comfort === null ? 'how the patient felt' : null,
    draft.comfort === 'felt' && felt.problem !== null ? 'pain from 0 to 10' : null,
    draft.comfort === 'felt' && draft.felt.felt.length === 0 && draft.felt.pain === '' ? 'what was felt' : null,
  ].filter((one) => one !== null);
  if (missing.length > 0) return { missed: null, missing: missing.join(', ') };
  const comfort = { comfortable: COMFORTABLE, felt: felt.comfort, notWatched: null };
  return {
    missed: {
      patientChecked: draft.patient === 'seen',
      comfort: comfort[draft.comfort ?? 'notWatched'],
      drain: drain.value,
      fill: fill.value,
    },
    missing: null,
  };
};

const timesMissing = ({ kind, drain, fill }: MissedDraft, zone: string): readonly (string | null)[] => {
  const typed: readonly TypedInstant[] = [
    ...(kind === 'fill' ? [] : [drain.start, drain.end]),
    ...(kind === 'drain' ? [] : [fill.start, fill.end]),
  ];
  const times = typed.map((one) => readInstant(one, zone).at);
  if (times.some((one) => one === null)) return ['a time'];
  return times.every((one, index) => index === 0 || (times[index - 1] ?? 0) <= (one ?? 0))
    ? []
    : ['times in their order'];
};

/** The time as typed; a missing one is named by `timesMissing`. */
const instantOf = (typed: TypedInstant, zone: string): EpochMs => readInstant(typed, zone).at ?? 0;

const seen = <Seen extends string>(watched: Watched<Seen>): Seen | null =>
  watched === 'notWatched' || watched === null ? null : watched;

function readDrain({ drain }: MissedDraft, { policy }: Around): Part<NonNullable<Missed['drain']>> {
  const range = { least: 0, most: policy.settings.drainedMostMl, unit: 'mL' };
  const drainedMl = drain.notKnown ? null : readDigits(drain.drained, range).value;
  const appearance = drain.appearanceNotWatched ? null : drain.appearance;
  const value = {
    startedAt: instantOf(drain.start, policy.zone),
    endedAt: instantOf(drain.end, policy.zone),
    measured: drainedMl === null || drain.method === null ? null : { volumeMl: drainedMl, method: drain.method },
    appearance,
    flow: seen(drain.flow),
    discarded: drain.discarded,
  };
  return part(value, [
    !drain.notKnown && drainedMl === null && 'the drained volume',
    !drain.notKnown && drain.method === null && 'how it was measured',
    appearance?.length === 0 && 'the appearance',
    drain.flow === null && 'how the flow ended',
    mustKeep(appearance ?? []) && 'the bedside: a cloudy bag is finished there',
  ]);
}

function readFill({ fill }: MissedDraft, { state, policy, mayOverride }: Around): Part<NonNullable<Missed['fill']>> {
  const { filledMostMl, flushMostMl } = policy.settings;
  const item = state.prescription?.items.find((one) => one.id === fill.itemId);
  if (!item) return { value: null, missing: ['which prescribed exchange'] };
  const filledMl = fill.notKnown ? null : readDigits(fill.filled, { least: 1, most: filledMostMl, unit: 'mL' }).value;
  const flushMl = fill.flushNotKnown ? null : readDigits(fill.flush, { least: 0, most: flushMostMl, unit: 'mL' }).value;
  const solutionId = fill.solutionId ?? item.solutionId;
  const other = solutionId !== item.solutionId;
  const [reason, physician, secondPerson] = [fill.reason.trim(), fill.physician.trim(), fill.secondPerson.trim()];
  const value = {
    startedAt: instantOf(fill.start, policy.zone),
    endedAt: instantOf(fill.end, policy.zone),
    bag: {
      solutionId,
      labelledMl: Math.max(item.fillMl, filledMl ?? 0),
      expiresOn: null,
      lot: fill.lot.trim() || null,
      read: 'typed' as const,
    },
    chambers: solutionOf(policy.formulary, solutionId)?.chambers ?? 1,
    bagChecked: fill.bag === 'seen',
    sealChecked: fill.seal === 'seen',
    flushMl,
    filledMl,
    prescribedMl: item.fillMl,
    override: other ? { reason, physician: physician || null } : null,
    revisionId: state.prescription?.id ?? null,
    itemId: item.id,
    additives: item.additives,
    secondPerson: item.additives.length > 0 ? secondPerson : null,
  };
  return part(value, [
    other && reason === '' && 'why another fluid',
    other && !mayOverride && physician === '' && 'the physician',
    typedLotProblem(fill.lot) !== null && 'a lot that can be one',
    item.additives.length > 0 && secondPerson === '' && 'who checked what was added',
    fill.bag === null && 'whether the bag was checked',
    fill.seal === null && 'whether seal and leak were looked at',
    !fill.flushNotKnown && flushMl === null && 'the flush',
    !fill.notKnown && filledMl === null && 'the filled volume',
  ]);
}
