import type { PatientLimits, Payloads, PrescriptionItem, PrescriptionRevision, WardSettings } from '@slackwater/domain';
import { isClockTime } from '@slackwater/domain/time/zone';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import { newId } from '../../api/ids.ts';
import { readDigits } from '../../ui/digits.ts';
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
  additives: string;
  window: string;
  condition: string;
};

export type RevisionDraft = { items: readonly ItemDraft[]; mostInside: string; acute: boolean; note: string };

export const newItem = (solutionId: string, like?: ItemDraft): ItemDraft => ({
  id: newId(),
  solutionId,
  fill: like?.fill ?? '',
  by: like?.by ?? 'length',
  length: like?.length ?? '',
  clock: '',
  cycle: like?.cycle ?? { fill: '', dwell: '', drain: '' },
  additives: '',
  window: like?.window ?? '30',
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
  additives: item.additives ?? '',
  window: String(item.windowMinutes),
  condition: item.condition ?? '',
});

/** A new revision begins as the one in force. */
export const draftFrom = (revision: PrescriptionRevision | null, solutionId: string): RevisionDraft => ({
  items: revision ? revision.items.map(itemDraft) : [newItem(solutionId)],
  mostInside: revision?.limits.mostInsideMl ? String(revision.limits.mostInsideMl) : '',
  acute: revision?.acute ?? false,
  note: '',
});

const NO_LIMITS: PatientLimits = {
  mostInsideMl: null,
  weightTargetKg: null,
  weightTargetCavity: null,
  systolicLowMmHg: null,
  systolicHighMmHg: null,
  overRemovalMl: null,
  overRemovalHours: null,
};

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
  if (fillMl === null || windowMinutes === null || dwell === null) return null;
  return {
    id: draft.id,
    solutionId: draft.solutionId,
    fillMl,
    additives: draft.additives.trim() || null,
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

/** The form as a revision, or null while something in it cannot be read. Limits not shown here stay as they are. */
export const readRevision = (
  draft: RevisionDraft,
  before: PrescriptionRevision | null,
  settings: WardSettings,
): Payloads['prescribed'] | null => {
  const items = draft.items.map((item) => readItem(item, settings));
  const mostInside = readDigits(draft.mostInside, { least: 1, most: 20_000, unit: 'mL' });
  if (items.length === 0 || mostInside.problem !== null) return null;
  const read = items.filter((item) => item !== null);
  if (read.length < items.length) return null;
  return {
    items: read,
    limits: { ...(before?.limits ?? NO_LIMITS), mostInsideMl: mostInside.value },
    acute: draft.acute,
    note: draft.note.trim() || null,
    reviewBy: null,
  };
};
