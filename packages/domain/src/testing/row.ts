import type { BedsideState } from '../bedside/state.ts';
import type { BoardRow, PatientIdentity } from '../ward/board-row.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { boardRow } from '../ward/row.ts';
import { LONDON } from './bedside.ts';

/** An invented patient. */
export const patientOf = (change: Partial<PatientIdentity> = {}): PatientIdentity => ({
  id: 'patient',
  family: 'BRANNOCK',
  given: 'Isolde',
  dateOfBirth: '1953-05-17',
  gender: 'female',
  hospitalNumber: 'AP 204655',
  allergy: null,
  isolation: null,
  cautions: [],
  ...change,
});

export const rowOf = (state: BedsideState, policy: WardPolicy = LONDON): BoardRow =>
  boardRow(state, patientOf(), policy, { version: 1, likeNameBeds: [] });
