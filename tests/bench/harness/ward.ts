import { randomUUID } from 'node:crypto';
import { hashPassword } from '@slackwater/api/access/password';
import { DEMONSTRATION_PASSWORD } from '@slackwater/api/demo/accounts';
import { loadScenario, type Scenario, type ScenarioPatient } from '@slackwater/api/demo/scenario';
import { patientStory } from '@slackwater/api/demo/story';
import { writeStory } from '@slackwater/api/demo/write-story';
import { openSite, openWard } from '@slackwater/api/record/open-ward';
import { DEFAULT_SETTINGS, NO_SUPPLIES, STANDARD_FORMULARY, type WardPolicy } from '@slackwater/domain';
import type { Pool } from 'pg';

export const SITE = 'alder-point';
export const WARD = 'kestrel';
export const PASSWORD = DEMONSTRATION_PASSWORD;
/** Who reads and writes in the bench. */
export const NURSE = 'okoro';

export type SeededWard = {
  scenario: Scenario;
  policy: WardPolicy;
  /** By login. */
  accounts: ReadonlyMap<string, { id: string; name: string }>;
  patientIds: readonly string[];
};

/** History of each patient of a large ward, days: what stood before has no part in a board (see the row `buffers`). */
const HISTORY_DAYS = 2;

/** The invented ward with as many patients as asked, each in a state of the demonstration, told anew bed by bed. */
export async function seedWard(db: Pool, patients: number): Promise<SeededWard> {
  const scenario = await loadScenario();
  const beds = Array.from({ length: patients }, (_, index) => String(index + 1));
  await openSite(db, { id: SITE, name: 'Alder Point Hospital' }, STANDARD_FORMULARY);
  await openWard(db, { siteId: SITE, ...scenario.ward, beds });
  const accounts = await addStaff(db, scenario);
  const { zone, shiftStarts } = scenario.ward;
  const policy: WardPolicy = {
    version: 1,
    zone,
    shiftStarts,
    formulary: STANDARD_FORMULARY,
    supplies: NO_SUPPLIES,
    settings: DEFAULT_SETTINGS,
    responses: {},
  };
  const now = Date.now();
  const loginOf = (role: string) => scenario.staff.find((one) => one.role === role)?.login ?? '';
  const context = { now, policy, chargeNurse: loginOf('chargeNurse'), nephrologist: loginOf('nephrologist') };
  const patientIds: string[] = [];
  const client = await db.connect();
  try {
    await client.query('BEGIN');
    for (const [index, bed] of beds.entries()) {
      const like = scenario.patients[index % scenario.patients.length]!;
      const patient = { ...like, ...nameOf(index, like), bed, admittedDaysAgo: HISTORY_DAYS };
      const patientId = await addPatient(client, patient);
      patientIds.push(patientId);
      const told = { siteId: SITE, wardId: WARD, patientId, policy, accounts, now };
      await writeStory(client, told, patientStory(patient, patientId, context));
    }
    await client.query('COMMIT');
  } finally {
    client.release();
  }
  await db.query('ANALYZE').catch(() => undefined);
  return { scenario, policy, accounts, patientIds };
}

/** No name comes twice: 200 like names would be another board. */
const nameOf = (index: number, { family, given }: ScenarioPatient) => ({
  family: `${family}-${letters(index)}`,
  given: `${given} ${letters(index * 7)}`,
  hospitalNumber: `AP ${500_000 + index}`,
});

const letters = (n: number): string =>
  String.fromCharCode(65 + (n % 26), 65 + (Math.floor(n / 26) % 26), 65 + ((n * 11) % 26));

async function addStaff(db: Pool, { staff, ward }: Scenario) {
  const accounts = new Map<string, { id: string; name: string }>();
  const hash = await hashPassword(PASSWORD);
  for (const { login, name, role } of staff) {
    const id = randomUUID();
    accounts.set(login, { id, name });
    await db.query(
      `INSERT INTO account (site_id, id, login, name, password_hash, password_changed_at, manager, created_at)
      VALUES ($1, $2, $3, $4, $5, now(), $6, now())`,
      [SITE, id, login, name, hash, role === 'manager'],
    );
    // a manager is of the hospital, not of a ward
    if (role !== 'manager') {
      await db.query('INSERT INTO account_role VALUES ($1, $2, $3, $4)', [SITE, id, ward.id, role]);
    }
  }
  return accounts;
}

export type Person = Pick<
  ScenarioPatient,
  'hospitalNumber' | 'family' | 'given' | 'dateOfBirth' | 'gender' | 'allergy' | 'isolation' | 'cautions'
>;

/** Makes somebody known to the hospital. @returns the patient's id */
export async function addPatient(db: Pick<Pool, 'query'>, person: Person): Promise<string> {
  const id = randomUUID();
  await db.query(
    `INSERT INTO patient (site_id, id, hospital_number, family, given, date_of_birth, gender, allergy, isolation, cautions,
      created_at)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, now())`,
    [
      SITE,
      id,
      person.hospitalNumber,
      person.family,
      person.given,
      person.dateOfBirth,
      person.gender,
      person.allergy,
      person.isolation,
      person.cautions,
    ],
  );
  return id;
}
