import { emptyBalance } from '../balance/balance.ts';
import { NOT_KNOWN } from '../cavity/inside.ts';
import { FOLD_VERSION } from './fold-version.ts';
import type { BedsideState } from './state.ts';

/** A patient of whom nothing is recorded: not on a ward, and what the cavity holds is not known. */
export function initialBedside(patientId: string): BedsideState {
  return {
    foldVersion: FOLD_VERSION,
    patientId,
    stay: null,
    fluidHandover: null,
    head: null,
    headAt: null,
    newest: null,
    newestAlert: null,
    origin: patientId,
    cavity: { state: 'unknown', since: 0 },
    inside: NOT_KNOWN,
    visit: null,
    lastVisit: null,
    openDwell: null,
    lastDwells: [],
    prescription: null,
    revisionInside: null,
    discontinuedAt: null,
    lastItemId: null,
    hold: null,
    keptEmptyUntil: null,
    orders: [],
    awaitingCountersign: [],
    due: null,
    day: emptyBalance(0, 0),
    shift: emptyBalance(0, 0),
    stayBalance: emptyBalance(0, 0),
    weight: null,
    bloodPressure: null,
    temperature: null,
    glucose: null,
    calledFirst: null,
    cautions: { diabetes: null, maltoseIntolerance: null, glycogenStorageDisease: null },
    icodextrinAt: null,
    removals: [],
    alerts: [],
    clearedByPerson: [],
    assignment: null,
    catheter: null,
    catheterInsertedAt: null,
    comforts: [],
    exitSite: null,
    told: [],
    workUps: [],
  };
}
