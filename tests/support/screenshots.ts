// npm run screenshots: the README's pictures, from the running tool on a demonstration of its own.
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildApp } from '@slackwater/api/app';
import { buildId } from '@slackwater/api/build-id';
import { DEMONSTRATION_PASSWORD } from '@slackwater/api/demo/accounts';
import { loadScenario } from '@slackwater/api/demo/scenario';
import { seedDemonstration } from '@slackwater/api/demo/seed';
import type { BoardSnapshot } from '@slackwater/contract';
import { openDatabase } from '@slackwater/tools/database';
import { migrate } from '@slackwater/tools/migrate';
import { projectRoot } from '@slackwater/tools/paths';
import { openBrowser } from './browser.ts';

const SITE = { id: 'alder-point', name: 'Alder Point Hospital' };
const BOARD = '/ward/kestrel';
const bedside = (bed: string) => ({ bed, screen: 'bedside' });

type Picture = {
  name: string;
  login: string;
  at: string | { bed: string; screen: string };
  width: number;
  height: number;
  dark?: true;
};

const PICTURES: readonly Picture[] = [
  { name: 'board-desk', login: 'adair', at: BOARD, width: 1440, height: 900 },
  { name: 'board-desk-dark', login: 'adair', at: BOARD, width: 1440, height: 900, dark: true },
  { name: 'board-tablet', login: 'adair', at: BOARD, width: 1024, height: 768 },
  { name: 'board-phone', login: 'adair', at: BOARD, width: 390, height: 844 },
  { name: 'wall', login: 'kestrel-wall', at: `${BOARD}/wall`, width: 1920, height: 1080 },
  { name: 'alerts', login: 'adair', at: `${BOARD}/alerts`, width: 1440, height: 900 },
  { name: 'bedside-prepare', login: 'quill', at: bedside('17'), width: 1024, height: 768 },
  { name: 'bedside-drain', login: 'okoro', at: bedside('4'), width: 1024, height: 768 },
  { name: 'bedside-fill', login: 'marsh', at: bedside('2'), width: 1024, height: 768 },
  { name: 'bedside-phone', login: 'okoro', at: bedside('4'), width: 390, height: 844 },
  { name: 'prescription', login: 'solberg', at: { bed: '9', screen: 'prescription' }, width: 1440, height: 900 },
  { name: 'rounds', login: 'solberg', at: { bed: '9', screen: 'rounds' }, width: 1440, height: 900 },
];

const data = await mkdtemp(join(tmpdir(), 'slackwater-pictures-'));
const pictures = join(projectRoot, 'shared/screenshots');
const boardFolder = join(projectRoot, 'apps/board/dist');
const database = await openDatabase({ kind: 'embedded', folder: data });
await migrate(database.ownerUrl ?? '');
const app = await buildApp({
  databaseUrl: database.appUrl,
  siteId: SITE.id,
  https: false,
  boardFolder,
  build: await buildId(boardFolder),
  fastify: { logger: false },
});
try {
  await seedDemonstration(app.pool, SITE, await loadScenario());
  const address = await app.server.listen({ port: 0, host: '127.0.0.1' });
  await mkdir(pictures, { recursive: true });
  for (const picture of PICTURES) {
    await take(address, picture);
    console.log(`shared/screenshots/${picture.name}.png`);
  }
} finally {
  await app.close();
  await database.stop();
  await rm(data, { recursive: true, force: true });
}

async function take(address: string, { name, login, at, width, height, dark }: Picture): Promise<void> {
  // a picture of a frame that blinks would miss it half of the time
  const reducedMotion = 'reduce';
  const colorScheme = dark ? 'dark' : 'light';
  const browser = await openBrowser({ viewport: { width, height }, colorScheme, reducedMotion });
  try {
    const page = await browser.context.newPage();
    const headers = { origin: address };
    await page.request.post(`${address}/api/sign-in`, { data: { login, password: DEMONSTRATION_PASSWORD }, headers });
    await page.goto(address + (typeof at === 'string' ? at : await pathOf(page.request, address, at)));
    await page.getByText('Live', { exact: false }).first().waitFor();
    await page.waitForLoadState('networkidle', { timeout: 2000 }).catch(() => undefined);
    await page.screenshot({ path: join(pictures, `${name}.png`) });
  } finally {
    await browser.close();
  }
}

type Requests = Awaited<ReturnType<typeof openBrowser>>['context']['request'];

async function pathOf(
  request: Requests,
  address: string,
  { bed, screen }: { bed: string; screen: string },
): Promise<string> {
  const board = (await (await request.get(`${address}/api/wards/kestrel/board`)).json()) as BoardSnapshot;
  const row = board.rows.find((one) => one.bed === bed);
  if (!row) throw new Error(`There is nobody in bed ${bed}.`);
  return `/patients/${row.patient.id}/${screen}`;
}
