import type { PoolClient } from 'pg';
import { type BadRows, MOST_LISTED, type RowProblem } from './import.problems.ts';

/** A time as the messages show it. */
const shown = (column: string): string => `to_char(${column}, 'YYYY-MM-DD"T"HH24:MI"Z"')`;

const FIRST_COLUMN = `CASE WHEN sheet.drains THEN 'drain_start' ELSE 'fill_start' END`;

/**
 * All that is wrong with the staged rows, in one statement. $1 site, $2 import, $3 the only ward that may be named
 * (null: any of the hospital), $4 how many to list.
 *
 * `fresh` are rows that do not stand in the record yet; what was imported before was judged then.
 */
const JUDGE = `
WITH sheet AS MATERIALIZED (
  SELECT import_row.*, patient.id AS patient_id FROM import_row
  LEFT JOIN patient ON patient.site_id = import_row.site_id AND patient.hospital_number = import_row.hospital_number
    AND patient.erased_at IS NULL
  WHERE import_row.site_id = $1 AND import_row.import_id = $2
),
fresh AS MATERIALIZED (
  SELECT * FROM sheet WHERE NOT EXISTS (SELECT FROM entry WHERE entry.site_id = $1 AND entry.id = sheet.id)
),
in_order AS (
  SELECT sheet.*, lag(started_at) OVER earlier AS started_before, lag(line) OVER earlier AS line_before,
    max(ended_at) OVER (earlier ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS ended_before
  FROM sheet WINDOW earlier AS (PARTITION BY hospital_number ORDER BY started_at, ended_at, line)
),
-- what was imported before, as it counts: corrected where it was, without what was retracted
imported AS (
  SELECT entry.patient_id, payload.said
  FROM entry
  LEFT JOIN entry AS amended ON amended.site_id = entry.site_id AND amended.target = entry.id
  JOIN entry_payload ON entry_payload.site_id = entry.site_id AND entry_payload.entry_id = coalesce(amended.id, entry.id)
  CROSS JOIN LATERAL (SELECT convert_from(entry_payload.bytes, 'UTF8')::jsonb AS whole) AS stored
  CROSS JOIN LATERAL (SELECT CASE WHEN amended.id IS NULL THEN whole ELSE whole->'payload' END AS said) AS payload
  WHERE entry.site_id = $1 AND entry.kind = 'imported' AND amended.kind IS DISTINCT FROM 'retracted'
    AND entry.patient_id IN (SELECT patient_id FROM fresh)
),
recorded AS (
  SELECT patient_id,
    to_timestamp(coalesce((said->>'drainStartedAt')::float8, (said->>'fillStartedAt')::float8) / 1000) AS started_at,
    to_timestamp(coalesce((said->>'fillEndedAt')::float8, (said->>'drainEndedAt')::float8) / 1000) AS ended_at
  FROM imported
  UNION ALL
  SELECT patient_id, started_at, coalesce(ended_at, 'infinity') FROM visit
  WHERE site_id = $1 AND patient_id IN (SELECT patient_id FROM fresh)
),
spans AS (
  SELECT patient_id, started_at, ended_at, line, drains FROM fresh WHERE patient_id IS NOT NULL
  UNION ALL SELECT patient_id, started_at, ended_at, NULL, NULL FROM recorded
),
-- for each row what is recorded around it, in one pass each way: never every row against every visit
beside AS (
  SELECT spans.*, max(ended_at) FILTER (WHERE line IS NULL) OVER forwards AS ended_before,
    max(started_at) FILTER (WHERE line IS NULL) OVER forwards AS started_before,
    min(started_at) FILTER (WHERE line IS NULL) OVER backwards AS starts_after
  FROM spans WINDOW
    forwards AS (PARTITION BY patient_id ORDER BY started_at, ended_at, line
      ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING),
    backwards AS (PARTITION BY patient_id ORDER BY started_at DESC, ended_at DESC, line DESC
      ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING)
),
found AS (
  SELECT line, 'ward' AS "column", ward_id AS value,
    CASE WHEN $3::text IS NULL THEN 'the id of a ward of this hospital' ELSE $3 END AS allowed,
    CASE WHEN $3::text IS NULL THEN 'is no ward of this hospital' ELSE 'is not the ward that is imported into' END AS message
  FROM sheet
  WHERE ward_id <> $3 OR NOT EXISTS (SELECT FROM ward WHERE ward.site_id = $1 AND ward.id = sheet.ward_id)
  UNION ALL
  SELECT line, 'hospital_number', hospital_number, 'the number of a patient of this hospital',
    'is nobody''s: admit the patient first, or import on the server with a file of people'
  FROM sheet WHERE patient_id IS NULL
  UNION ALL
  SELECT line, 'solution', solution_id,
    (SELECT string_agg(id, ', ' ORDER BY place, id) FROM solution WHERE site_id = $1), 'is not in the formulary'
  FROM sheet
  WHERE solution_id IS NOT NULL
    AND NOT EXISTS (SELECT FROM solution WHERE solution.site_id = $1 AND solution.id = sheet.solution_id)
  UNION ALL
  SELECT line, ${FIRST_COLUMN}, ${shown('started_at')}, 'after the patient''s row before it has ended',
    'overlaps line ' || line_before
  FROM in_order AS sheet WHERE started_at < ended_before OR started_at = started_before
  UNION ALL
  SELECT line, ${FIRST_COLUMN}, ${shown('started_at')}, 'times at which nothing else is recorded',
    'contradicts what is recorded ' || CASE WHEN ended_before > started_at OR started_before = started_at
      THEN 'to ' || CASE WHEN isfinite(ended_before) THEN ${shown('ended_before')} ELSE 'this day' END
      ELSE 'from ' || ${shown('starts_after')} END
  FROM beside AS sheet
  WHERE line IS NOT NULL
    AND (ended_before > started_at OR started_before = started_at OR starts_after < ended_at OR starts_after = started_at)
  UNION ALL
  SELECT sheet.line, ${FIRST_COLUMN}, ${shown('sheet.started_at')}, 'wholly before or wholly after',
    'spans the beginning of a recorded stay'
  FROM fresh AS sheet JOIN stay ON stay.site_id = $1 AND stay.patient_id = sheet.patient_id
  WHERE stay.from_at > sheet.started_at AND stay.from_at < sheet.ended_at
  UNION ALL
  SELECT sheet.line, CASE WHEN sheet.payload LIKE '%"fillEndedAt":null%' THEN 'drain_end' ELSE 'fill_end' END,
    ${shown('sheet.ended_at')}, 'not after ' || ${shown('present.at')},
    'is not the past: since then the bedside holds what is inside now; enter it there as a missed exchange'
  FROM fresh AS sheet
  JOIN bedside ON bedside.site_id = $1 AND bedside.patient_id = sheet.patient_id AND bedside.ward_id IS NOT NULL
  CROSS JOIN LATERAL (
    SELECT to_timestamp(greatest((state->'stay'->>'admittedAt')::float8, (state->>'headAt')::float8) / 1000) AS at
  ) AS present
  WHERE sheet.ended_at > present.at
)
SELECT line, "column", value, allowed, message, (SELECT count(DISTINCT line)::integer FROM found) AS bad
FROM found ORDER BY line, "column" LIMIT $4`;

/** What one row can have wrong at once, so that the first bad rows are listed whole. */
const MOST_PROBLEMS_A_ROW = 4;

/** Judges the staged rows among themselves and against what is recorded. */
export async function judgeStaged(
  client: PoolClient,
  siteId: string,
  importId: string,
  onlyWard: string | null,
): Promise<BadRows> {
  const values = [siteId, importId, onlyWard, MOST_LISTED * MOST_PROBLEMS_A_ROW];
  const { rows } = await client.query<RowProblem & { bad: number }>(JUDGE, values);
  return { count: rows[0]?.bad ?? 0, listed: rows.map(({ bad: _, ...problem }) => problem) };
}
