import type { EpochMs, OrderContent, Problem, WardPolicy } from '@slackwater/domain';
import { orderProblems, orderTimeProblems } from '@slackwater/domain/prescription/order-problems';
import { MINUTE_MS } from '@slackwater/domain/time/instant';
import { EMPTY_INSTANT, readInstant, type TypedInstant } from '../bedside/shared/typed-instant.ts';
import { NO_TELEPHONE, type TelephoneDraft } from './telephone-fields.tsx';

/** What is typed of a way to theatre or imaging. */
export type AwayDraft = {
  where: string;
  why: string;
  drainBy: TypedInstant;
  leavesAt: TypedInstant;
  backAt: TypedInstant;
} & TelephoneDraft;

/** Nothing typed but the day. @param today `YYYY-MM-DD` */
export const noAway = (today: string): AwayDraft => {
  const time = { ...EMPTY_INSTANT, date: today };
  return { where: '', why: '', drainBy: time, leavesAt: time, backAt: time, ...NO_TELEPHONE };
};

type Context = {
  now: EpochMs;
  zone: string;
  /** Nothing has to be drained: the cavity is empty already. */
  isEmpty: boolean;
};

export type AwayContent = Extract<OrderContent, { what: 'drainAndStayEmpty' }>;

/** A typed time has no seconds: the minute that runs is now. */
const fromNow = (at: EpochMs, now: EpochMs): EpochMs => (at <= now && now - at < MINUTE_MS ? now : at);

/** The form as one order: drained before leaving, empty until back. null while something in it is missing. */
export const readAway = (draft: AwayDraft, { now, zone, isEmpty }: Context): AwayContent | null => {
  const drainBy = isEmpty ? now : readInstant(draft.drainBy, zone).at;
  const leavesAt = readInstant(draft.leavesAt, zone).at;
  const backAt = readInstant(draft.backAt, zone).at;
  const where = draft.where.trim();
  const why = draft.why.trim();
  if (drainBy === null || leavesAt === null || backAt === null || where === '' || why === '') return null;
  return {
    what: 'drainAndStayEmpty',
    drainBy: fromNow(drainBy, now),
    emptyUntil: backAt,
    away: { where, why, leavesAt: fromNow(leavesAt, now), backAt },
  };
};

/** What of the form is missing, as its button says it. */
export const missingOfAway = (draft: AwayDraft, { zone, isEmpty }: Context): readonly string[] =>
  [
    draft.where.trim() === '' ? 'where to' : null,
    draft.why.trim() === '' ? 'what for' : null,
    isEmpty || readInstant(draft.drainBy, zone).at !== null ? null : 'drain by',
    readInstant(draft.leavesAt, zone).at === null ? 'leaves at' : null,
    readInstant(draft.backAt, zone).at === null ? 'expected back' : null,
  ].filter((one) => one !== null);

export type AwayField = 'drainBy' | 'leavesAt' | 'backAt';

const FIELDS: Readonly<Record<string, AwayField>> = {
  'content.drainBy': 'drainBy',
  'content.away.leavesAt': 'leavesAt',
  'content.away.backAt': 'backAt',
  // The cavity stays empty until the return.
  'content.emptyUntil': 'backAt',
};

/**
 * What the domain finds wrong with the times, in the words of the form, each at its field. {} = nothing.
 * @param clock a clock time in the ward's zone
 */
export const awayProblems = (
  content: AwayContent,
  now: EpochMs,
  policy: WardPolicy,
  clock: (at: EpochMs) => string,
): Partial<Record<AwayField, string>> => {
  const payload = { content, note: null, telephone: null };
  const found: Partial<Record<AwayField, string>> = {};
  for (const problem of [...orderProblems(payload, policy), ...orderTimeProblems(payload, now, policy)]) {
    const field = FIELDS[problem.field];
    if (field) found[field] ??= wordsFor(field, problem, content, clock);
  }
  return found;
};

const wordsFor = (
  field: AwayField,
  { code, value, allowed }: Problem,
  { away }: AwayContent,
  clock: (at: EpochMs) => string,
): string => {
  const at = clock(value as EpochMs);
  if (code === 'out-of-range') return `${at} is not possible; allowed is ${allowed}.`;
  const leaves = clock(away?.leavesAt ?? 0);
  return field === 'drainBy'
    ? `${at} is too late; allowed is up to ${leaves}, when the patient leaves.`
    : `${at} is too early; allowed is after ${leaves}, when the patient leaves.`;
};
