import type {
  EpochMs,
  Payloads,
  PrescriptionItem,
  PrescriptionRevision,
  WardPolicy,
  WardSettings,
} from '@slackwater/domain';
import { isClockTime } from '@slackwater/domain/time/zone';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import { newId } from '../../api/ids.ts';
import { readDigits } from '../../ui/digits.ts';
import { EMPTY_INSTANT, readInstant, type TypedInstant, typedFrom } from '../bedside/shared/typed-instant.ts';
import { type AdditiveDraft, additiveDraft, readAdditives } from './additive-draft.ts';
import { type LimitsDraft, limitsDraft, readLimits } from './limits-draft.ts';
import { readDuration } from './read-duration.ts';

/** One exchange of a new revision as it stands in the form. */
export type ItemDraft = {
  /** Kept from the revision before, so that the day goes on where it stands. */
  id: string;
  solutionId: string;
  fill: string;
  by: 'length' | 'clock' | 'cycle';
  length: string;
  clock: string;
  cycle: { fill: string; dwell: string; drain: string };
  additives: readonly AdditiveDraft[];
  window: string;
  condition: string;
};

export type RevisionDraft = {
  items: readonly ItemDraft[];
  limits: LimitsDraft;
  acute: boolean;
  /** Left empty: no time is set. */
  reviewBy: TypedInstant;
  note: string;
};

/** Another exchange. Its strength is chosen, never guessed; fill and dwell begin as those of the one before. */
export const newItem = (like?: ItemDraft): ItemDraft => ({
  id: newId(),
  solutionId: '',
  fill: like?.fill ?? '',
  by: like?.by ?? 'length',
  length: like?.length ?? '',
  clock: '',
  cycle: like?.cycle ?? { fill: '', dwell: '', drain: '' },
  additives: [],
  window: like?.window ?? '0',
  condition: '',
});

const itemDraft = (item: PrescriptionItem): ItemDraft => ({
  id: item.id,
  solutionId: item.solutionId,
  fill: String(item.fillMl),
  by: item.dwell.by,
  length: item.dwell.by === 'length' ? formatMinutes(item.dwell.dwellMinutes) : '',
  clock: item.dwell.by === 'clock' ? item.dwell.at : '',
  cycle:
    item.dwell.by === 'cycle'
      ? {
          fill: String(item.dwell.fillMinutes),
          dwell: String(item.dwell.dwellMinutes),
          drain: String(item.dwell.drainMinutes),
        }
      : { fill: '', dwell: '', drain: '' },
  additives: item.additives.map(additiveDraft),
  window: String(item.windowMinutes),
  condition: item.condition ?? '',
});

/** A new revision begins as the one in force. A time of review that is past by `now` is not carried over. */
export const draftFrom = (revision: PrescriptionRevision | null, now: EpochMs, zone: string): RevisionDraft => ({
  items: revision ? revision.items.map(itemDraft) : [newItem()],
  limits: limitsDraft(revision?.limits ?? null),
  acute: revision?.acute ?? false,
  reviewBy: revision?.reviewBy != null && revision.reviewBy > now ? typedFrom(revision.reviewBy, zone) : EMPTY_INSTANT,
  note: '',
});

export const fillRange = (settings: WardSettings) => ({
  least: 1,
  most: Math.min(5000, settings.filledMostMl),
  unit: 'mL',
});
export const minutesRange = { least: 0, most: 1440, unit: 'min' };

const readItem = (draft: ItemDraft, settings: WardSettings): PrescriptionItem | null => {
  const fillMl = readDigits(draft.fill, fillRange(settings)).value;
  const windowMinutes = readDigits(draft.window, { least: 0, most: 240, unit: 'min' }).value;
  const dwell = readDwell(draft, settings);
  const additives = readAdditives(draft.additives, settings);
  if (draft.solutionId === '' || fillMl === null || windowMinutes === null || dwell === null) return null;
  if (additives === null) return null;
  return {
    id: draft.id,
    solutionId: draft.solutionId,
    fillMl,
    additives,
    dwell,
    windowMinutes,
    condition: draft.condition.trim() || null,
  };
};

const readDwell = (draft: ItemDraft, settings: WardSettings): PrescriptionItem['dwell'] | null => {
  if (draft.by === 'clock') return isClockTime(draft.clock) ? { by: 'clock', at: draft.clock } : null;
  if (draft.by === 'length') {
    const { minutes } = readDuration(draft.length, settings.dwellLeastMinutes, settings.dwellMostMinutes);
    return minutes === null ? null : { by: 'length', dwellMinutes: minutes };
  }
  const [fill, dwell, drain] = [draft.cycle.fill, draft.cycle.dwell, draft.cycle.drain].map(
    (typed) => readDigits(typed, minutesRange).value,
  );
  if (fill == null || dwell == null || drain == null) return null;
  return { by: 'cycle', fillMinutes: fill, dwellMinutes: dwell, drainMinutes: drain };
};

/** The time of review as typed: none where nothing is typed, null while it cannot be read. */
const readReview = (typed: TypedInstant, zone: string): { at: EpochMs | null } | null => {
  if (typed.date.trim() === '' && typed.clock.trim() === '') return { at: null };
  const { at } = readInstant(typed, zone);
  return at === null ? null : { at };
};

/** The form as a revision, or null while something in it cannot be read. */
export const readRevision = (
  draft: RevisionDraft,
  { settings, zone }: Pick<WardPolicy, 'settings' | 'zone'>,
): Payloads['prescribed'] | null => {
  const items = draft.items.map((item) => readItem(item, settings));
  const limits = readLimits(draft.limits, settings);
  const review = readReview(draft.reviewBy, zone);
  if (items.length === 0 || limits === null || review === null) return null;
  const read = items.filter((item) => item !== null);
  if (read.length < items.length) return null;
  return {
    items: read,
    limits,
    acute: draft.acute,
    note: draft.note.trim() || null,
    reviewBy: review.at,
  };
};
