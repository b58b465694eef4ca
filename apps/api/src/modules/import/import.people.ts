import { randomUUID } from 'node:crypto';
import type { PoolClient } from 'pg';
import { readCsv } from './import.csv.ts';
import { hasControl } from './import.rows.ts';

/** The columns of a file of people, in any order, each exactly once. */
const PEOPLE_COLUMNS = ['hospital_number', 'family', 'given', 'date_of_birth', 'gender'] as const;

type PeopleColumn = (typeof PEOPLE_COLUMNS)[number];
type Person = Readonly<Record<PeopleColumn, string>>;

/** What is wrong with one field of one line of the file of people. */
export type PersonProblem = { line: number; column: PeopleColumn | 'line'; value: string; allowed: string };

/** As many as one file may hold: a hospital's patients, not a country's. */
const MOST_PEOPLE = 20_000;

const LONGEST: Record<PeopleColumn, number> = {
  hospital_number: 40,
  family: 80,
  given: 80,
  date_of_birth: 10,
  gender: 40,
};

/**
 * Reads a file of people. Nobody is ever made from a flow sheet alone: who a patient is stands here, whole.
 * @throws SheetError where it is no such file
 */
export async function readPeople(
  source: AsyncIterable<Uint8Array>,
): Promise<{ people: readonly Person[]; problems: readonly PersonProblem[] }> {
  const byNumber = new Map<string, Person>();
  const problems: PersonProblem[] = [];
  for await (const record of readCsv(source, PEOPLE_COLUMNS)) {
    const { line } = record;
    if ('found' in record) {
      problems.push({
        line,
        column: 'line',
        value: `${record.found} fields`,
        allowed: `${PEOPLE_COLUMNS.length} fields`,
      });
      continue;
    }
    const person = record.fields;
    for (const column of PEOPLE_COLUMNS) {
      const value = person[column];
      if (value === '' || value.length > LONGEST[column] || hasControl(value) || value !== value.trim()) {
        problems.push({ line, column, value, allowed: `1 to ${LONGEST[column]} characters, no spaces around them` });
      } else if (column === 'date_of_birth' && !isBirthday(value)) {
        problems.push({ line, column, value, allowed: 'a date from 1880-01-01 to today, as YYYY-MM-DD' });
      }
    }
    if (byNumber.has(person.hospital_number)) {
      problems.push({ line, column: 'hospital_number', value: person.hospital_number, allowed: 'each person once' });
    }
    byNumber.set(person.hospital_number, person);
    if (byNumber.size > MOST_PEOPLE) {
      problems.push({
        line,
        column: 'line',
        value: `${byNumber.size} people`,
        allowed: `at most ${MOST_PEOPLE} people`,
      });
      break;
    }
  }
  return { people: [...byNumber.values()], problems };
}

function isBirthday(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  try {
    const date = Temporal.PlainDate.from(text);
    return text >= '1880-01-01' && Temporal.PlainDate.compare(date, Temporal.Now.plainDateISO('UTC')) <= 0;
  } catch {
    return false;
  }
}

const PERSON = `jsonb_to_recordset($2::jsonb) AS person(
  id uuid, hospital_number text, family text, given text, date_of_birth date, gender text)`;

/** $1 site, $2 people */
const ADD_PEOPLE = `
INSERT INTO patient (site_id, id, hospital_number, family, given, date_of_birth, gender, cautions, created_at)
SELECT $1, person.id, person.hospital_number, person.family, person.given, person.date_of_birth, person.gender, '{}', now()
FROM ${PERSON} ON CONFLICT (site_id, hospital_number) DO NOTHING`;

/** $1 site, $2 people */
const OTHERS = `
SELECT person.hospital_number AS "hospitalNumber"
FROM ${PERSON} JOIN patient ON patient.site_id = $1 AND patient.hospital_number = person.hospital_number
WHERE (patient.family, patient.given, patient.date_of_birth, patient.gender)
  IS DISTINCT FROM (person.family, person.given, person.date_of_birth, person.gender)
ORDER BY 1`;

/**
 * Makes people known who are not; whoever is known already stays as known.
 * @returns how many were added, and the hospital numbers under which somebody else is known
 */
export async function addPeople(client: PoolClient, siteId: string, people: readonly Person[]) {
  const values = [siteId, JSON.stringify(people.map((person) => ({ ...person, id: randomUUID() })))];
  const added = await client.query(ADD_PEOPLE, values);
  const { rows } = await client.query<{ hospitalNumber: string }>(OTHERS, values);
  return { added: added.rowCount ?? 0, others: rows.map(({ hospitalNumber }) => hospitalNumber) };
}
