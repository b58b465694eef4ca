import type { PoolClient } from 'pg';
import { epochMs } from '../../record/instants.ts';
import { POSITION_CHANNEL } from '../../record/statements.sql.ts';

/** Held through commit, as by every writer: the ward's positions stay gapless. $1 site, $2 ward */
const TAKE_COUNTER = 'SELECT FROM ward_counter WHERE site_id = $1 AND ward_id = $2 FOR UPDATE';

/**
 * Publishes all rows of one ward: positions, places among the patient's entries and the chain's digests in the order of
 * time. $1 site, $2 ward, $3 import, $4 author.
 *
 * `link` is what `linkOf` in record/chain.ts makes, for these entries: ids and the ward's name need no escape in JSON.
 */
const PUBLISH = `
WITH numbered AS (
  SELECT sheet.*, patient.id AS patient_id,
    (bedside.version - count(*) OVER (PARTITION BY patient.id)
      + row_number() OVER (PARTITION BY patient.id ORDER BY sheet.ended_at, sheet.started_at))::integer AS sequence,
    sha256(sheet.salt || convert_to(sheet.payload, 'UTF8')) AS content_digest
  FROM import_row AS sheet
  JOIN patient ON patient.site_id = sheet.site_id AND patient.hospital_number = sheet.hospital_number
  JOIN bedside ON bedside.site_id = patient.site_id AND bedside.patient_id = patient.id
  WHERE sheet.site_id = $1 AND sheet.import_id = $3
),
placed AS MATERIALIZED (
  SELECT numbered.*, row_number() OVER (ORDER BY ended_at, patient_id, sequence)::integer AS place,
    sha256(convert_to(concat('["', site_id, '","', ward_id, '","', id, '","', patient_id, '",', sequence,
      ',null,"imported",1,', (extract(epoch FROM ended_at) * 1000)::bigint, ',null,',
      coalesce('"' || $4::uuid || '"', 'null'), ',null,null]'), 'UTF8') || content_digest) AS link
  FROM numbered WHERE ward_id = $2
),
links AS (SELECT count(*)::integer AS amount, array_agg(link ORDER BY place) AS all_links FROM placed),
clock AS MATERIALIZED (SELECT date_trunc('milliseconds', clock_timestamp()) AS at),
chained AS MATERIALIZED (
  SELECT counter.position AS before, links.amount, clock.at,
    chain_digests(counter.digest, counter.position, clock.at, links.all_links) AS digests
  FROM ward_counter AS counter, links, clock WHERE counter.site_id = $1 AND counter.ward_id = $2
),
-- each digest with what else its entry takes from the counter: the array itself is joined to nothing
digests AS (
  SELECT one.place, one.digest, chained.before, chained.at
  FROM chained, unnest(chained.digests) WITH ORDINALITY AS one(digest, place)
),
moved AS (
  UPDATE ward_counter AS counter SET position = chained.before + chained.amount, digest = digests[amount]
  FROM chained WHERE counter.site_id = $1 AND counter.ward_id = $2
),
entries AS (
  INSERT INTO entry (site_id, id, ward_id, position, patient_id, sequence, visit_id, kind, format, happened_at,
    device_at, received_at, author_id, after, target, content_digest, digest)
  SELECT $1, placed.id, $2, digests.before + placed.place, placed.patient_id, placed.sequence, NULL, 'imported', 1,
    placed.ended_at, NULL, digests.at, $4, NULL, NULL, placed.content_digest, digests.digest
  FROM placed JOIN digests USING (place)
),
payloads AS (
  INSERT INTO entry_payload (site_id, entry_id, salt, bytes)
  SELECT $1, id, salt, convert_to(payload, 'UTF8') FROM placed
)
SELECT before, amount, ${epochMs('at')} AS "receivedAt",
  pg_notify('${POSITION_CHANNEL}', $1 || '/' || $2 || ':' || (before + amount)) AS told
FROM chained`;

/**
 * Publishes the staged rows of one ward. The bedsides stand as they are to be already.
 *
 * A foreign key is checked by a plan that is kept for the whole session. One that was made while the table of entries was
 * small reads all of it, for each row that the sheet adds to it: so it is made anew, and by the index.
 */
export async function publish(
  client: PoolClient,
  what: { siteId: string; wardId: string; importId: string; author: string | null },
): Promise<void> {
  const { siteId, wardId, importId, author } = what;
  await client.query(TAKE_COUNTER, [siteId, wardId]);
  await client.query('DISCARD PLANS');
  await client.query('SET LOCAL enable_seqscan = off');
  await client.query(PUBLISH, [siteId, wardId, importId, author]);
  await client.query('SET LOCAL enable_seqscan = on');
}
