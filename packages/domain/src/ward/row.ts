import { standingMinutes } from '../alert/rules-visit.ts';
import type { BedsideState, Visit } from '../bedside/state.ts';
import type { Cavity } from '../cavity/cavity.ts';
import { fluidTakenOver } from '../cavity/fluid-handover.ts';
import { additivesInside } from '../dwell/additives-inside.ts';
import { type AdditiveCheck, waitsForSecondPerson } from '../exchange/additive-check.ts';
import { openWorkUp } from '../peritonitis/work-up.ts';
import { standingOf } from '../peritonitis/work-up-standing.ts';
import { bagDoubts } from '../prescription/bag-doubts.ts';
import { bagFor } from '../prescription/bag-for.ts';
import { stayEmptyOf } from '../prescription/stay-empty.ts';
import { solutionOf } from '../solution/formulary.ts';
import { type EpochMs, plusMinutes } from '../time/instant.ts';
import type { BoardRow, PatientIdentity, WallRow } from './board-row.ts';
import { drainWindow } from './drain-window.ts';
import { laterDrainsAt } from './later-drains.ts';
import type { WardPolicy } from './policy.ts';
import { ribbonOf } from './ribbon.ts';

/**
 * One row of the unit board from a bedside. It holds instants only and does not depend on now, so it is the same until
 * something happens at this bed.
 * @param context.version position of the newest entry in it
 */
export function boardRow(
  state: BedsideState,
  patient: PatientIdentity,
  policy: WardPolicy,
  context: { version: number; likeNameBeds: readonly string[] },
): BoardRow {
  const { stay, visit } = state;
  const last = state.lastDwells[0];
  return {
    patient,
    bed: stay?.bed ?? '',
    version: context.version,
    likeNameBeds: context.likeNameBeds,
    cavity: state.cavity,
    inside: state.inside,
    insideStrength: strengthInside(state, policy),
    visit: visit && {
      id: visit.id,
      state: visit.state,
      since: visit.since,
      startedAt: visit.startedAt,
      startedBy: visit.startedBy,
      purpose: visit.purpose,
    },
    standingAt: visit && standingAt(visit, policy),
    hasAdditives: additivesInside(state.cavity).length > 0,
    waitsForSecondPersonSince: waitingSince(visit?.additiveCheck ?? null),
    due: state.due,
    laterDrainsAt: laterDrainsAt(state, policy),
    drainWindow: drainWindow(state),
    cycle: cycleOf(state),
    next: nextBag(state, policy),
    stayEmpty: stayEmptyOf(state),
    hold: state.hold,
    fluidHandover: handoverOf(state),
    offWard: stay?.offWard ?? null,
    lastDwell: last
      ? { drainedAt: last.drainedAt, drainMinusFillMl: last.drainMinusFillMl, complete: last.complete }
      : null,
    day: state.day,
    shift: state.shift,
    alerts: state.alerts,
    nurse: state.assignment,
    workUp: workUpOf(state),
    ribbon: ribbonOf(state),
  };
}

function workUpOf({ workUps, comforts }: BedsideState): BoardRow['workUp'] {
  const workUp = openWorkUp(workUps);
  if (workUp === null) return null;
  const { metCount, awaiting } = standingOf(workUp, comforts);
  return { openedAt: workUp.openedAt, metCount, awaiting };
}

function handoverOf(state: BedsideState): BoardRow['fluidHandover'] {
  const taken = fluidTakenOver(state);
  return taken && { at: taken.handover.at, toWhom: taken.handover.toWhom };
}

const waitingSince = (check: AdditiveCheck | null): EpochMs | null =>
  waitsForSecondPerson(check) ? check.askedAt : null;

/** When a visit's state is past its expected time: for a drain, when it becomes slow. */
function standingAt({ state, since }: Visit, { settings }: WardPolicy): EpochMs {
  return plusMinutes(since, standingMinutes(state, settings) ?? settings.slowDrainMinutes);
}

function strengthInside({ cavity }: BedsideState, { formulary }: WardPolicy): string | null {
  if (cavity.state !== 'holding') return null;
  const strengths = cavity.fills.map(
    (fill) => solutionOf(formulary, fill.solutionId)?.strength ?? 'strength not known',
  );
  return [...new Set(strengths)].join(' + ');
}

/** Cycles are counted within the ward day: those drained, and the one that runs. */
function cycleOf({ prescription, lastItemId, day }: BedsideState): BoardRow['cycle'] {
  const item = prescription?.items.find((one) => one.id === lastItemId) ?? prescription?.items[0];
  if (item?.dwell.by !== 'cycle') return null;
  const { fillMinutes, dwellMinutes, drainMinutes } = item.dwell;
  return { number: day.exchanges + 1, minutes: fillMinutes + dwellMinutes + drainMinutes };
}

function nextBag(state: BedsideState, policy: WardPolicy): BoardRow['next'] {
  const bag = bagFor(state, policy);
  if (bag === null) return null;
  const solution = solutionOf(policy.formulary, bag.solutionId);
  return {
    solution: solution?.label ?? bag.solutionId,
    strength: solution?.strength ?? bag.solutionId,
    fillMl: bag.fillMl,
    doubts: bagDoubts(state, policy).map((doubt) =>
      doubt.why === 'condition'
        ? doubt
        : {
            why: doubt.why,
            others: doubt.others.map(({ solutionId, fillMl }) => ({
              strength: solutionOf(policy.formulary, solutionId)?.strength ?? solutionId,
              fillMl,
            })),
          },
    ),
  };
}

/**
 * The same for the wall, where everybody passes: initials instead of the patient, and none of the words that say what
 * is wrong or where somebody is.
 */
export function wallRow({ patient, likeNameBeds: _, ...row }: BoardRow): WallRow {
  return {
    ...row,
    initials: `${initial(patient.family)} ${initial(patient.given)}`,
    cavity: withoutAdditives(row.cavity),
    next: row.next && { ...row.next, doubts: [] },
    stayEmpty: row.stayEmpty && { ...row.stayEmpty, away: null },
    fluidHandover: row.fluidHandover && { ...row.fluidHandover, toWhom: '' },
    hold: row.hold && { ...row.hold, reason: '' },
    offWard: row.offWard && { ...row.offWard, where: '' },
    workUp: null,
    alerts: row.alerts.map((alert) => ({ ...alert, facts: {} })),
  };
}

const withoutAdditives = (cavity: Cavity): Cavity =>
  cavity.state === 'holding' ? { ...cavity, fills: cavity.fills.map((fill) => ({ ...fill, additives: [] })) } : cavity;

const initial = (name: string): string => `${[...name.trim()][0]?.toUpperCase() ?? '–'}.`;
