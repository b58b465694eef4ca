import { epochMs } from './instants.ts';
import { FOLDED_TABLE_NAMES, FOLDED_TABLES, type FoldedTable, KEY_COLUMNS } from './rows/tables.ts';
import { POSITION_CHANNEL, type Statement } from './statements.sql.ts';

/** What an append writes beside entries and bedsides. */
export type Shape = {
  /** Two for a transfer: the counter of the lower ward id is taken first. */
  wards: 1 | 2;
  tables: readonly FoldedTable[];
  /** A refold: rows of these patients that are not among those written fall away. */
  replace: boolean;
  settings: boolean;
  supplies: boolean;
  deliveries: boolean;
  noted: boolean;
};

/**
 * The one way in. Bedsides first, each only if its version is the one that was seen; then the counters, which hold
 * through commit and so make positions gapless and in commit order; then everything that hangs on them. No row back:
 * somebody was faster, and nothing was written.
 *
 * Parameters: site, how many bedsides, the bedsides, the entries, the ward (a transfer: the lower one, then the higher),
 * then the new settings or supplies if any, then what is to be told outside if anything, then what is noted in the audit if
 * anything, then the rows of each table in the order of `tables`.
 */
export function appendStatement(shape: Shape): Statement {
  const key = JSON.stringify([
    shape.wards,
    shape.replace,
    shape.settings,
    shape.supplies,
    shape.deliveries,
    shape.noted,
    ...shape.tables,
  ]);
  const known = appendStatements.get(key);
  if (known !== undefined) return known;
  const statement = { name: `record-append-${appendStatements.size}`, text: appendText(shape) };
  appendStatements.set(key, statement);
  return statement;
}

const appendStatements = new Map<string, Statement>();

function appendText({ wards, tables, replace, settings, supplies, deliveries, noted }: Shape): string {
  let parameters = 5;
  const parameter = () => {
    parameters += 1;
    return `$${parameters}`;
  };
  const second = wards === 2 ? parameter() : null;
  const newSettings = settings ? parameter() : null;
  const newSupplies = supplies ? parameter() : null;
  const told = deliveries ? parameter() : null;
  const notes = noted ? parameter() : null;
  const parts = [
    SEEN,
    HELD,
    CLOCK,
    ADDED,
    ...(newSettings === null ? [] : [settingsHeld(newSettings), LOOKED_AT_AGAIN]),
    ...(newSupplies === null ? [] : [suppliesHeld(newSupplies)]),
    newSupplies !== null
      ? counterPart('first_counter', '$5', SUPPLIES_CONDITION)
      : newSettings === null
        ? counterPart('first_counter', '$5', '(SELECT count(*) FROM held) = $2::integer')
        : counterPart('first_counter', '$5', SETTINGS_CONDITION),
    ...(second === null ? [] : [counterPart('second_counter', second, 'EXISTS (SELECT FROM first_counter)')]),
    `counters AS (SELECT * FROM first_counter${second === null ? '' : ' UNION ALL SELECT * FROM second_counter'})`,
    PLACED,
    PAYLOADS,
    ...(newSettings === null ? [] : [settingsAdded(newSettings)]),
    ...(newSupplies === null ? [] : [suppliesAdded(newSupplies)]),
    ...(told === null ? [] : [deliveriesAdded(told)]),
    ...(notes === null ? [] : [notesAdded(notes)]),
    ...tables.flatMap((table) => {
      const rows = parameter();
      return replace ? [upsertPart(table, rows), deletePart(table, rows)] : [upsertPart(table, rows)];
    }),
  ];
  return `WITH ${parts.join(',\n')}
SELECT counters.ward_id AS "wardId", counters.before, counters.amount,
  ${epochMs('counters.received_at')} AS "receivedAt",
  pg_notify('${POSITION_CHANNEL}', $1 || '/' || counters.ward_id || ':' || (counters.before + counters.amount)) AS told
FROM counters`;
}

/**
 * Writes one bedside and its rows as folded anew, with no entry. $1 site, $2 is 1, $3 the bedside, then the rows of every
 * table in the order of FOLDED_TABLE_NAMES.
 */
export const rebuildStatement = (): Statement => ({
  name: 'record-rebuild',
  text: `WITH ${[
    SEEN,
    HELD,
    'counters AS (SELECT count(*) AS amount FROM held HAVING count(*) = $2::integer)',
    ...FOLDED_TABLE_NAMES.flatMap((table, index) => [
      upsertPart(table, `$${index + 4}`),
      deletePart(table, `$${index + 4}`),
    ]),
  ].join(',\n')}
SELECT amount FROM counters`,
});

const SEEN = `seen AS (
  SELECT * FROM json_to_recordset($3::json) AS x(
    patient_id uuid, seen integer, seen_fold integer, version integer, ward_id text, bed text, fold_version integer,
    state json, next_change_at timestamptz)
)`;

const HELD = `held AS (
  UPDATE bedside SET version = seen.version, ward_id = seen.ward_id, bed = seen.bed, fold_version = seen.fold_version,
    state = seen.state, next_change_at = seen.next_change_at
  FROM seen
  WHERE bedside.site_id = $1 AND bedside.patient_id = seen.patient_id AND bedside.version = seen.seen
    AND bedside.fold_version = coalesce(seen.seen_fold, bedside.fold_version)
  RETURNING bedside.patient_id
)`;

const CLOCK = `clock AS MATERIALIZED (SELECT date_trunc('milliseconds', clock_timestamp()) AS at)`;

/** `place` counts within the entry's ward. */
const ADDED = `added AS (
  SELECT * FROM jsonb_to_recordset($4::jsonb) AS x(
    id uuid, ward_id text, place integer, patient_id uuid, sequence integer, visit_id uuid, kind text, format smallint,
    happened_at timestamptz, device_at timestamptz, author_id uuid, after uuid, target uuid,
    released_by uuid,
    content_digest text, link text, salt text, bytes text)
)`;

const SETTINGS_CONDITION = `$2::integer = 0 AND (SELECT count(*) FROM settings_held) = 1
    AND (SELECT count(*) FROM looked_at_again) >= 0`;

const SUPPLIES_CONDITION = '$2::integer = 0 AND (SELECT count(*) FROM supplies_held) = 1';

const counterPart = (name: string, ward: string, condition: string): string => `${name} AS (
  UPDATE ward_counter AS counter
  SET position = counter.position + links.amount,
    digest = (chain_digests(counter.digest, counter.position, (SELECT at FROM clock), links.all_links))[links.amount]
  FROM (
    SELECT count(*)::integer AS amount, array_agg(decode(link, 'base64') ORDER BY place) AS all_links
    FROM added WHERE ward_id = ${ward}
  ) AS links
  WHERE counter.site_id = $1 AND counter.ward_id = ${ward} AND ${condition}
  RETURNING counter.ward_id, old.position AS before, links.amount, (SELECT at FROM clock) AS received_at,
    chain_digests(old.digest, old.position, (SELECT at FROM clock), links.all_links) AS digests
)`;

const PLACED = `placed AS (
  INSERT INTO entry (site_id, id, ward_id, position, patient_id, sequence, visit_id, kind, format, happened_at,
    device_at, received_at, author_id, after, target, released_by, content_digest, digest)
  SELECT $1, added.id, added.ward_id, counters.before + added.place, added.patient_id, added.sequence, added.visit_id,
    added.kind, added.format, added.happened_at, added.device_at, counters.received_at, added.author_id, added.after,
    added.target, added.released_by, decode(added.content_digest, 'base64'), counters.digests[added.place]
  FROM added JOIN counters USING (ward_id)
  RETURNING id
)`;

const PAYLOADS = `payloads AS (
  INSERT INTO entry_payload (site_id, entry_id, salt, bytes)
  SELECT $1, added.id, decode(added.salt, 'base64'), decode(added.bytes, 'base64')
  FROM added JOIN placed USING (id)
)`;

const settingsHeld = (settings: string): string => `settings_held AS (
  UPDATE ward SET settings_version = (${settings}::jsonb->>'version')::integer
  WHERE site_id = $1 AND id = $5 AND settings_version = (${settings}::jsonb->>'version')::integer - 1
  RETURNING id
)`;

/**
 * Every bedside of the ward is to be folded anew under the new settings: its fold gets a version that no release has, so
 * whoever takes it next does so, and the alarms take it at once. Before the counter, as everywhere.
 */
const LOOKED_AT_AGAIN = `looked_at_again AS (
  UPDATE bedside SET next_change_at = (SELECT at FROM clock), fold_version = 0
  WHERE bedside.site_id = $1 AND bedside.ward_id = $5 AND EXISTS (SELECT FROM settings_held)
  RETURNING patient_id
)`;

const settingsAdded = (settings: string): string => `settings_added AS (
  INSERT INTO ward_settings (site_id, ward_id, version, settings, entry_id, from_at)
  SELECT $1, $5, (${settings}::jsonb->>'version')::integer, ${settings}::jsonb->'settings',
    (${settings}::jsonb->>'entryId')::uuid, counters.received_at
  FROM counters
)`;

/** Products and recalls are the hospital's: two wards that change them at once write one after the other. */
const suppliesHeld = (supplies: string): string => `supplies_held AS (
  UPDATE site SET formulary_version = (${supplies}::jsonb->>'version')::integer
  WHERE id = $1 AND formulary_version = (${supplies}::jsonb->>'version')::integer - 1
  RETURNING id
)`;

const suppliesAdded = (supplies: string): string => `supplies_added AS (
  INSERT INTO supplies (site_id, version, products, recalls, ward_id, entry_id, from_at)
  SELECT $1, (${supplies}::jsonb->>'version')::integer, ${supplies}::jsonb->'products', ${supplies}::jsonb->'recalls',
    $5, (${supplies}::jsonb->>'entryId')::uuid, counters.received_at
  FROM counters
)`;

/** What is told outside goes with the entry that it is about: both stand, or neither. */
const deliveriesAdded = (told: string): string => `deliveries_added AS (
  INSERT INTO delivery (site_id, id, ward_id, target, body, created_at, next_try_at, tries)
  SELECT $1, x.id, x.ward_id, x.target, x.body, counters.received_at, counters.received_at, 0
  FROM jsonb_to_recordset(${told}::jsonb) AS x(id uuid, ward_id text, target text, body jsonb)
  JOIN counters USING (ward_id)
)`;

/** What is noted about an author stands with the entry, or neither does. */
const notesAdded = (notes: string): string => `notes_added AS (
  INSERT INTO audit (site_id, id, at, account_id, action, ward_id, patient_id, detail)
  SELECT $1, x.id, counters.received_at, x.account_id, x.action, x.ward_id, x.patient_id, x.detail
  FROM jsonb_to_recordset(${notes}::jsonb) AS x(
    id uuid, account_id uuid, action text, ward_id text, patient_id uuid, detail jsonb)
  JOIN counters USING (ward_id)
)`;

/** What a row says about the time at which it began stays as it was first written. */
const KEPT: Partial<Record<FoldedTable, readonly string[]>> = { alert: ['ward_id'], visit: ['ward_id'] };

/** Writes the rows of one table from JSON; a row that says nothing new is left as it is. */
function upsertPart(table: FoldedTable, rows: string): string {
  const columns = FOLDED_TABLES[table];
  const key = ['site_id', ...KEY_COLUMNS[table]];
  const changing = columns.filter((column) => !key.includes(column) && !KEPT[table]?.includes(column));
  const list = (of: string) => changing.map((column) => `${of}.${column}`).join(', ');
  return `${table}_rows AS (
  INSERT INTO ${table} AS kept (${columns.join(', ')})
  SELECT ${columns.map((column) => `x.${column}`).join(', ')}
  FROM jsonb_populate_recordset(NULL::${table}, ${rows}::jsonb) AS x
  WHERE EXISTS (SELECT FROM counters)
  ON CONFLICT (${key.join(', ')}) DO UPDATE SET ${changing.map((column) => `${column} = excluded.${column}`).join(', ')}
  WHERE (${list('kept')}) IS DISTINCT FROM (${list('excluded')})
)`;
}

/** Takes away the rows that a refold no longer makes. */
function deletePart(table: FoldedTable, rows: string): string {
  const owner =
    table === 'prescription_item'
      ? `gone.revision_id IN (
      SELECT revision.id FROM prescription_revision AS revision JOIN held ON revision.patient_id = held.patient_id
      WHERE revision.site_id = $1)`
      : 'gone.patient_id IN (SELECT patient_id FROM held)';
  const same = KEY_COLUMNS[table].map((column) => `x.${column} = gone.${column}`).join(' AND ');
  return `${table}_gone AS (
  DELETE FROM ${table} AS gone
  WHERE gone.site_id = $1 AND ${owner} AND EXISTS (SELECT FROM counters)
    AND NOT EXISTS (SELECT FROM jsonb_populate_recordset(NULL::${table}, ${rows}::jsonb) AS x WHERE ${same})
)`;
}
