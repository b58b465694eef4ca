import { type AppendFailure, problem } from './failures.ts';

/** What a constraint of the database says no to, as a failure for people; null = a fault of ours. */
export function failureOf(error: unknown): AppendFailure | 'twice' | null {
  if (!(error instanceof Error) || !('constraint' in error)) return null;
  switch (error.constraint) {
    case 'entry_pkey':
      return 'twice';
    case 'stay_one_in_bed':
      return taken('bed-taken', 'payload.bed', 'a free bed', 'Somebody lies in this bed.');
    case 'stay_site_id_ward_id_bed_fkey':
      return refused('unknown-bed', 'payload.bed', 'a bed of the ward', 'The ward has no such bed.');
    case 'bedside_site_id_ward_id_fkey':
      return refused('unknown-ward', 'payload.toWardId', 'a ward of this hospital', 'There is no such ward.');
    case 'entry_replaced_once':
      return taken('already-replaced', 'payload.target', 'the newest correction', 'This entry was replaced already.');
    case 'stay_one_open':
      return taken('on-a-ward', 'payload', 'a patient in no bed', 'The patient lies on a ward already.');
    case 'visit_one_open':
      return taken('visit-open', 'visitId', 'one open visit', 'Another visit to this patient is open.');
    case 'visit_pkey':
      return taken('visit-taken', 'visitId', 'a new id', 'This visit belongs to somebody else.');
    case 'prescription_item_site_id_solution_id_fkey':
      return refused('unknown-solution', 'payload.items', 'a solution of the formulary', 'There is no such solution.');
    default:
      return null;
  }
}

const taken = (code: string, field: string, allowed: string, message: string): AppendFailure => ({
  code: 'taken',
  problems: [problem(code, field, null, allowed, message)],
});

const refused = (code: string, field: string, allowed: string, message: string): AppendFailure => ({
  code: 'refused',
  problems: [problem(code, field, null, allowed, message)],
});
