/** Everything at one position, and what changed between two: the board's or the wall's. */
export type Snapshot<Row> = { epoch: string; position: number; rows: readonly Row[] };
export type Delta<Row> = { epoch: string; from: number; to: number; rows: readonly Row[]; gone: readonly string[] };

/** The name under which a row is replaced or goes. */
export type IdOf<Row> = (row: Row) => string;

/** The rows of a ward as of one position. A row that did not change stays the same object. */
export type Rows<Row> = { epoch: string; position: number; byId: ReadonlyMap<string, Row> };

export const fromSnapshot = <Row>({ epoch, position, rows }: Snapshot<Row>, idOf: IdOf<Row>): Rows<Row> => ({
  epoch,
  position,
  byId: new Map(rows.map((row) => [idOf(row), row])),
});

/**
 * The rows after a change. A change is applied only where it fits: `behind` asks for what lies between, `otherEpoch`
 * (the database was restored or promoted) for everything. A change that is already in has no effect.
 */
export const applied = <Row>(
  rows: Rows<Row>,
  delta: Delta<Row>,
  idOf: IdOf<Row>,
): Rows<Row> | 'behind' | 'otherEpoch' => {
  if (delta.epoch !== rows.epoch) return 'otherEpoch';
  if (delta.to <= rows.position) return rows;
  if (delta.from > rows.position) return 'behind';
  const byId = new Map(rows.byId);
  for (const id of delta.gone) byId.delete(id);
  for (const row of delta.rows) byId.set(idOf(row), row);
  return { epoch: rows.epoch, position: delta.to, byId };
};
