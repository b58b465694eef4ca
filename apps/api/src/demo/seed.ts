import { randomUUID } from 'node:crypto';
import { DEFAULT_SETTINGS, type EpochMs, NO_SUPPLIES, STANDARD_FORMULARY, type WardPolicy } from '@slackwater/domain';
import type { Pool, PoolClient } from 'pg';
import { hashPassword } from '../access/password.ts';
import { openSite, openWard } from '../record/open-ward.ts';
import { DEMONSTRATION_PASSWORD } from './accounts.ts';
import type { Scenario } from './scenario.ts';
import { patientStory } from './story.ts';
import { type Inserted, writeStory } from './write-story.ts';
import { writeSupplies } from './write-supplies.ts';

/** Any number that nothing else in this database takes: two starts must not both seed. */
const LOCK = 72_707_371;

/**
 * Seeds the invented ward as of now, whole or not at all; does nothing where it stands already.
 * @returns the instant of which the demonstration tells
 * @throws when the hospital of that id holds data that are not a demonstration
 */
export async function seedDemonstration(
  pool: Pool,
  site: { id: string; name: string },
  scenario: Scenario,
): Promise<EpochMs> {
  const client = await pool.connect();
  try {
    await client.query('BEGIN');
    await client.query('SELECT pg_advisory_xact_lock($1)', [LOCK]);
    const seededAt = (await seededBefore(client, site.id)) ?? (await seed(client, site, scenario));
    await client.query('COMMIT');
    return seededAt;
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  } finally {
    client.release();
  }
}

async function seededBefore(client: PoolClient, siteId: string): Promise<EpochMs | null> {
  const { rows } = await client.query<{ at: Date | null; used: boolean }>(
    `SELECT (SELECT seeded_at FROM demonstration WHERE site_id = $1) AS at,
       EXISTS (SELECT FROM account WHERE site_id = $1) OR EXISTS (SELECT FROM ward WHERE site_id = $1) AS used`,
    [siteId],
  );
  const found = rows[0];
  if (found?.at) return found.at.getTime();
  if (!found?.used) return null;
  throw new Error(
    `The hospital ${siteId} in this database is not a demonstration: start with SLACKWATER_DEMO=0, or name another SLACKWATER_SITE.`,
  );
}

async function seed(client: PoolClient, site: { id: string; name: string }, scenario: Scenario): Promise<EpochMs> {
  const { ward } = scenario;
  const policy: WardPolicy = {
    version: 1,
    zone: ward.zone,
    shiftStarts: ward.shiftStarts,
    formulary: STANDARD_FORMULARY,
    supplies: NO_SUPPLIES,
    settings: DEFAULT_SETTINGS,
    responses: {},
  };
  const accounts = await addAccounts(client, site, scenario);
  const { rows } = await client.query<{ now: Date }>('SELECT clock_timestamp() AS now');
  const now = (rows[0] as { now: Date }).now.getTime();
  const byLogin = (role: string) => scenario.staff.find((one) => one.role === role)?.login ?? '';
  const context = { now, policy, chargeNurse: byLogin('chargeNurse'), nephrologist: byLogin('nephrologist') };
  const author = accounts.get(context.chargeNurse)?.id ?? '';
  await writeSupplies(client, { siteId: site.id, wardId: ward.id, author, now });
  for (const patient of scenario.patients) {
    const id = randomUUID();
    await addPatient(client, site.id, id, patient);
    const told: Inserted = { siteId: site.id, wardId: ward.id, patientId: id, policy, accounts, now };
    await writeStory(client, told, patientStory(patient, id, context));
  }
  await client.query('INSERT INTO demonstration (site_id, seeded_at) VALUES ($1, $2)', [site.id, new Date(now)]);
  return now;
}

async function addAccounts(client: PoolClient, site: { id: string; name: string }, { ward, staff }: Scenario) {
  await openSite(client, site, STANDARD_FORMULARY);
  await openWard(client, { siteId: site.id, ...ward });
  const accounts = new Map<string, { id: string; name: string }>();
  // one hash for all: the password is published, and a seed shall not take seconds for it
  const hash = await hashPassword(DEMONSTRATION_PASSWORD);
  for (const { login, name, role } of staff) {
    const id = randomUUID();
    accounts.set(login, { id, name });
    await client.query(
      `INSERT INTO account (site_id, id, login, name, password_hash, password_changed_at, manager, demonstration, created_at)
       VALUES ($1, $2, $3, $4, $5, now(), $6, true, now())`,
      [site.id, id, login, name, hash, role === 'manager'],
    );
    // a manager is of the hospital, not of a ward
    if (role === 'manager') continue;
    await client.query('INSERT INTO account_role (site_id, account_id, ward_id, role) VALUES ($1, $2, $3, $4)', [
      site.id,
      id,
      ward.id,
      role,
    ]);
  }
  return accounts;
}

async function addPatient(
  client: PoolClient,
  siteId: string,
  id: string,
  patient: Scenario['patients'][number],
): Promise<void> {
  await client.query(
    `INSERT INTO patient (site_id, id, hospital_number, family, given, date_of_birth, gender, allergy, isolation, cautions, created_at)
     VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, now())`,
    [
      siteId,
      id,
      patient.hospitalNumber,
      patient.family,
      patient.given,
      patient.dateOfBirth,
      patient.gender,
      patient.allergy,
      patient.isolation,
      patient.cautions,
    ],
  );
}
