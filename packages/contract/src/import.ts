/** `POST /api/wards/:ward/import`, a flow sheet as `text/csv`: what became of it. */
export type ImportAnswer = {
  rows: number;
  /** Rows that are in the record now and were not before. */
  added: number;
  /** Rows that stood there already: the same file twice changes nothing. */
  known: number;
  /** Patients whose history grew. */
  patients: number;
};
