/// <reference lib="dom" />
import { randomUUIDv7 } from 'node:crypto';
import { setTimeout } from 'node:timers/promises';
import { openBoardPage } from '../harness/board-page.ts';
import { pool } from '../harness/databases.ts';
import type { Row } from '../harness/measure.ts';
import { quantile, quartiles } from '../harness/quantiles.ts';
import { serveApp, signIn } from '../harness/servers.ts';
import { seedWard, WARD } from '../harness/ward.ts';

const BED = '17';
const EVERY_MS = 130;

declare global {
  interface Window {
    shownAt: number[];
  }
}

/**
 * From the record's own instant of an entry (a charge nurse gives a patient to another nurse) to the frame after the one
 * in which the row in another person's browser says so. Both clocks are this machine's.
 */
export const pixel: Row = {
  name: 'pixel',
  async run({ databases, pace }) {
    const samples = pace.windowMs < 1000 ? 30 : 200;
    const database = await databases.open();
    const db = pool(database.appUrl);
    const { scenario, accounts, patientIds } = await seedWard(db, 24);
    await db.end();
    const app = await serveApp(database.appUrl);
    const board = await openBoardPage(app);
    try {
      const { page } = board;
      await board.open();
      await page.locator('[data-stream="live"]').waitFor();
      await page.locator(`li[data-bed="${BED}"]`).scrollIntoViewIfNeeded();
      const charge = await signIn(app.url, scenario.staff.find(({ role }) => role === 'chargeNurse')!.login);
      const nurses = scenario.staff.filter(({ role }) => role === 'nurse').map(({ login }) => accounts.get(login)!);
      const patientId = patientIds[Number(BED) - 1]!;
      const give = async (turn: number): Promise<number> => {
        const nurse = nurses[turn % 2]!;
        const from = Date.now();
        const payload = { accountId: nurse.id, name: nurse.name, from, to: from + 3_600_000 };
        const drafted = { id: randomUUIDv7(), kind: 'assigned', format: 1, visitId: null, after: null };
        const entries = [{ ...drafted, payload, patientId, happenedAt: from }];
        const answer = await fetch(new URL('/api/entries', app.url), {
          method: 'POST',
          headers: { cookie: charge, origin: app.url.origin, 'content-type': 'application/json' },
          body: JSON.stringify({ wardId: WARD, deviceAt: Date.now(), entries }),
        });
        if (!answer.ok) throw new Error(`Not assigned: ${answer.status} ${await answer.text()}`);
        const { receipts } = (await answer.json()) as { receipts: { receivedAt: number }[] };
        return receipts[0]!.receivedAt;
      };
      // the first may name the nurse who has the patient already
      await give(0);
      await setTimeout(1000);
      await page.evaluate(watchRow, BED);
      const committedAt: number[] = [];
      for (let turn = 1; turn <= samples; turn += 1) {
        committedAt.push(await give(turn));
        await setTimeout(EVERY_MS);
      }
      await setTimeout(1000);
      const shownAt = await page.evaluate(() => window.shownAt);
      if (shownAt.length !== samples) throw new Error(`${shownAt.length} changes were seen of ${samples}.`);
      const waits = shownAt.map((at, index) => at - committedAt[index]!);
      return [
        {
          what: 'commit → changed pixel in another browser, p99',
          value: quantile(waits, 0.99),
          unit: 'ms',
          bar: { at: 'most', value: 300 },
          quartiles: quartiles(waits),
          beside: `${samples} entries, median ${quantile(waits, 0.5).toFixed(0)} ms, slowest ${Math.max(...waits).toFixed(0)} ms`,
        },
      ];
    } finally {
      await board.close();
      await app.stop();
      await database.drop();
    }
  },
};

/** In the page: notes when each other text of the row has been drawn. */
function watchRow(bed: string): void {
  window.shownAt = [];
  const row = () => document.querySelector(`li[data-bed="${bed}"]`)?.lastElementChild?.textContent;
  let before = row();
  new MutationObserver(() => {
    const now = row();
    if (now === before) return;
    before = now;
    // the frame after is asked for when the frame with the change is on its way to the screen
    requestAnimationFrame(() =>
      requestAnimationFrame(() => window.shownAt.push(performance.timeOrigin + performance.now())),
    );
  }).observe(document.body, { subtree: true, childList: true, characterData: true });
}
