import type { EntryView } from '@slackwater/contract';
import type { BedsideState, Draft, Entry, EpochMs, Problem, Role, WardPolicy } from '@slackwater/domain';
import { advance } from '@slackwater/domain/bedside/fold';
import { judge } from '@slackwater/domain/exchange/judge';
import { needsServer } from '@slackwater/domain/exchange/needs-server';
import { isStep } from '@slackwater/domain/exchange/steps';
import { canonical } from '@slackwater/domain/record/canonical';
import type { Touch } from './touch.ts';

type Author = { accountId: string; name: string };

/** What waits as the record would hold it, in the order in which it was written. */
const asEntries = (state: BedsideState, touches: readonly Touch[], author: string): readonly Entry[] =>
  touches
    .flatMap(({ drafts, wardId, writtenAt }) => drafts.map((draft) => ({ draft, wardId, writtenAt })))
    .map(
      ({ draft, wardId, writtenAt }, index) =>
        ({
          ...draft,
          siteId: '',
          wardId,
          deviceAt: writtenAt,
          receivedAt: writtenAt,
          author,
          position: (state.newest?.position ?? 0) + 1 + index,
        }) as Entry,
    );

/**
 * The bedside with what waits on this device: the server's last word, carried on by the fold with which the server
 * writes. Corrections among what waits are resolved first. What cannot follow any more (somebody else's step has come
 * meanwhile, or the record holds it already) is passed over: the server decides about it.
 */
export const predicted = (
  state: BedsideState,
  touches: readonly Touch[],
  author: string,
  policy: WardPolicy,
): BedsideState => {
  let current = state;
  for (const entry of canonical(asEntries(state, touches, author))) {
    if (isStep(entry.kind) && entry.after !== current.head) continue;
    const advanced = advance(current, entry, policy);
    if (advanced !== 'refold') current = advanced.state;
  }
  return current;
};

type Situation = {
  state: BedsideState;
  waiting: readonly Touch[];
  policy: WardPolicy;
  now: EpochMs;
  author: { accountId: string; role: Role };
};

/**
 * Why a touch may not wait on this device, as the server would say it: the domain's own judgement on the predicted
 * bedside, one entry after another; and what only the whole record can tell, which this device does not hold.
 */
export const problemsOffline = (touch: Touch, situation: Situation): readonly Problem[] => {
  const { waiting, policy, now, author } = situation;
  const known = new Set([...waiting, touch].flatMap(({ drafts }) => drafts.map(({ id }) => id)));
  for (const [index, draft] of touch.drafts.entries()) {
    if ((draft.kind === 'corrected' || draft.kind === 'retracted') && !known.has(draft.payload.target))
      return [inRecordAlready(draft, index)];
    const online = needsServer(draft);
    if (online !== null) return [{ ...online, field: `entries.${index}.${online.field}` }];
    const before = [...waiting, { ...touch, drafts: touch.drafts.slice(0, index) }];
    const state = predicted(situation.state, before, author.accountId, policy);
    const problems = judge(state, draft, { now, policy, actor: author });
    if (problems.length > 0) return problems.map((one) => ({ ...one, field: `entries.${index}.${one.field}` }));
    if (isStep(draft.kind) && !standsAfter(situation, [...waiting, touch], draft)) return [outOfOrder(draft, index)];
  }
  return [];
};

/** Whether a step, once it waits, is where the bedside stands. */
const standsAfter = ({ state, policy, author }: Situation, touches: readonly Touch[], step: Draft): boolean => {
  const upTo = touches.map((touch) => {
    const place = touch.drafts.findIndex(({ id }) => id === step.id);
    return place === -1 ? touch : { ...touch, drafts: touch.drafts.slice(0, place + 1) };
  });
  return predicted(state, upTo, author.accountId, policy).head === step.id;
};

const problem = (draft: Draft, index: number, code: string, message: string): Problem => ({
  code,
  field: `entries.${index}.happenedAt`,
  value: draft.happenedAt,
  allowed: 'what this device can place without the record',
  message,
});

const inRecordAlready = (draft: Draft, index: number): Problem =>
  problem(
    draft,
    index,
    'needs-the-record',
    'No connection: what stands in the record is corrected or undone there, once the line is back. Write it on the sheet.',
  );

const outOfOrder = (draft: Draft, index: number): Problem =>
  problem(
    draft,
    index,
    'needs-the-record',
    'No connection: a time before what was recorded since cannot be placed on this device. Enter it when the line is back.',
  );

/** The newest entries with those that wait, newest first: undo and "started earlier" work on them as on any. */
export const withWaiting = (
  entries: readonly EntryView[],
  touches: readonly Touch[],
  author: Author,
): readonly EntryView[] => {
  const inRecord = new Set(entries.map(({ id }) => id));
  const newest = Math.max(0, ...entries.map(({ position }) => position));
  const waiting = touches.flatMap(({ drafts, wardId, writtenAt }) =>
    drafts.filter(({ id }) => !inRecord.has(id)).map((draft) => ({ draft, wardId, writtenAt })),
  );
  const amending = (kind: 'corrected' | 'retracted', id: string): string | null =>
    waiting.find(({ draft }) => draft.kind === kind && draft.payload.target === id)?.draft.id ?? null;
  const amended = <One extends EntryView>(entry: One): One => ({
    ...entry,
    correctedBy: entry.correctedBy ?? amending('corrected', entry.id),
    retractedBy: entry.retractedBy ?? amending('retracted', entry.id),
  });
  const views = waiting.map(
    ({ draft, wardId, writtenAt }, index) =>
      ({
        ...draft,
        siteId: '',
        wardId,
        deviceAt: writtenAt,
        receivedAt: writtenAt,
        author: author.accountId,
        position: newest + 1 + index,
        authorName: author.name,
        releasedByName: null,
        correctedBy: null,
        retractedBy: null,
      }) as EntryView,
  );
  return [...views.toReversed(), ...entries].map(amended);
};
