import { HOUR_MS, STANDARD_FORMULARY } from '@slackwater/domain';
import type { App } from './app.ts';
import type { Config } from './config.ts';
import { DEMONSTRATION_PASSWORD } from './demo/accounts.ts';
import { loadScenario } from './demo/scenario.ts';
import { seedDemonstration } from './demo/seed.ts';
import { withProgress } from './progress.ts';
import { openSite } from './record/open-ward.ts';

/** Sees to it that there is a hospital and somebody who may run it. @returns what the console should say */
export async function openHospital(config: Config, app: App): Promise<string> {
  if (config.demonstration) return demonstrate(config, app);
  await refuseDemonstration(config, app);
  await openSite(app.pool, config.site, STANDARD_FORMULARY);
  if (config.firstAdministrator) {
    const made = await app.access.firstAdministrator.make({
      ...config.firstAdministrator,
      name: config.firstAdministrator.login,
    });
    if (made)
      return `The first administrator is ${config.firstAdministrator.login}. Take SLACKWATER_ADMIN out of the environment.`;
  }
  const token = await app.access.firstAdministrator.issueToken();
  if (token === null) return '';
  return `Nobody can manage this hospital yet. Once, while this process runs, its first administrator is made at\n  /first-administrator#${token}`;
}

/** What was seeded as a demonstration has a published password: it is never served as a hospital. */
async function refuseDemonstration({ site }: Config, app: App): Promise<void> {
  const { rowCount } = await app.pool.query('SELECT FROM demonstration WHERE site_id = $1', [site.id]);
  if (rowCount === 0) return;
  throw new Error(
    `The hospital ${site.id} in this database is the demonstration, whose password is published: name another SLACKWATER_SITE or another database.`,
  );
}

/** Older than this, the demonstration's states no longer look like a ward at work. */
const FRESH_FOR_MS = 6 * HOUR_MS;

async function demonstrate(config: Config, app: App): Promise<string> {
  const scenario = await loadScenario();
  const seededAt = await withProgress('Seeding the demonstration', () =>
    seedDemonstration(app.pool, config.site, scenario),
  );
  const lines = [
    'Demonstration: invented patients, staff and numbers. Sign in with one of these:',
    ...scenario.staff.map(({ login, name, role }) => `  ${login.padEnd(14)} ${name}, ${ROLE_NAMES[role]}`),
    `  password for all: ${DEMONSTRATION_PASSWORD}`,
  ];
  if (Date.now() - seededAt > FRESH_FOR_MS) {
    const hours = Math.floor((Date.now() - seededAt) / HOUR_MS);
    lines.push(
      `This demonstration is ${hours} h old, so nearly everything is overdue. A fresh one: npm run demo:fresh`,
    );
  }
  return lines.join('\n');
}

const ROLE_NAMES = {
  nurse: 'bedside nurse',
  chargeNurse: 'charge nurse',
  nephrologist: 'nephrologist',
  manager: 'unit manager',
  wall: 'wall display',
} as const;
