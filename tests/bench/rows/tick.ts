/// <reference lib="dom" />
import { setTimeout } from 'node:timers/promises';
import { openBoardPage } from '../harness/board-page.ts';
import { pool } from '../harness/databases.ts';
import type { Row } from '../harness/measure.ts';
import { median, quartiles } from '../harness/quantiles.ts';
import { serveApp } from '../harness/servers.ts';
import { seedWard } from '../harness/ward.ts';

declare global {
  interface Window {
    passMinute(): void;
  }
}

const PATIENTS = 200;
const SETTLE_MS = 200;

/** The main thread's work for one turn of the minute on a board of 200: script, style and layout, as Chromium counts them. */
export const tick: Row = {
  name: 'tick',
  async run({ databases, pace }) {
    const ticks = pace.windowMs < 1000 ? 8 : 40;
    const database = await databases.open();
    const db = pool(database.appUrl);
    await seedWard(db, PATIENTS);
    await db.end();
    const app = await serveApp(database.appUrl);
    const board = await openBoardPage(app);
    try {
      const { page } = board;
      await page.addInitScript(letMinutesPass);
      await board.open();
      await page.locator('[data-stream="live"]').waitFor();
      // alarms that rose at the start of the server, and the browser's own first work, are no part of a tick
      await setTimeout(4000);
      const inspector = await page.context().newCDPSession(page);
      // processor time of the page's main thread: what another process takes from the core is no part of it
      await inspector.send('Performance.setTimeDomain', { timeDomain: 'threadTicks' });
      await inspector.send('Performance.enable');
      const read = async () => {
        const { metrics } = await inspector.send('Performance.getMetrics');
        const of = (name: string) => (metrics.find((metric) => metric.name === name)?.value ?? 0) * 1000;
        const parts = { script: of('ScriptDuration'), style: of('RecalcStyleDuration'), layout: of('LayoutDuration') };
        return { ...parts, all: parts.script + parts.style + parts.layout, task: of('TaskDuration') };
      };
      const spent: Awaited<ReturnType<typeof read>>[] = [];
      // the first ones compile what later ones only run
      for (let turn = -3; turn < ticks; turn += 1) {
        // what runs anyway meanwhile, such as a frame that asks for somebody, is no part of the tick
        const idle = await read();
        await setTimeout(SETTLE_MS);
        const before = await read();
        await page.evaluate(() => window.passMinute());
        await setTimeout(SETTLE_MS);
        const after = await read();
        if (turn < 0) continue;
        const ofTick = (part: keyof typeof after) => after[part] - before[part] - (before[part] - idle[part]);
        spent.push({
          script: ofTick('script'),
          style: ofTick('style'),
          layout: ofTick('layout'),
          all: ofTick('all'),
          task: ofTick('task'),
        });
      }
      const of = (part: keyof (typeof spent)[number]) => spent.map((one) => one[part]);
      const middle = (part: keyof (typeof spent)[number]) => median(of(part)).toFixed(1);
      const follows = `style ${middle('style')}, layout ${middle('layout')} ms; all tasks with painting ${middle('task')} ms`;
      return [
        {
          what: `one tick of ${PATIENTS} rows in the browser`,
          value: median(of('script')),
          unit: 'ms',
          bar: { at: 'most', value: 4 },
          quartiles: quartiles(of('script')),
          beside: `${ticks} minutes`,
        },
        {
          what: 'the same with the style and layout that follow',
          value: median(of('all')),
          unit: 'ms',
          bar: null,
          quartiles: quartiles(of('all')),
          beside: follows,
        },
      ];
    } finally {
      await board.close();
      await app.stop();
      await database.drop();
    }
  },
};

/**
 * In the page, before its own script: its monotonic clock can be set ahead, and what it set for the turn of the minute is
 * then called. (Telling it that the page was shown again would also make it ask the server for everything anew.)
 */
function letMinutesPass(): void {
  const now = performance.now.bind(performance);
  const later = window.setTimeout.bind(window);
  let aheadMs = 0;
  let atTheTurn: (() => void)[] = [];
  performance.now = () => now() + aheadMs;
  const untilTheTurn = () => 60_000 - ((Date.now() + aheadMs) % 60_000);
  // the ward's clock, as the page has heard it, differs a little from this machine's; whole seconds are other waits
  const isTheTurn = (ms: number) => ms % 1000 !== 0 && Math.abs(ms - untilTheTurn()) < 1000;
  window.setTimeout = ((work: () => void, ms = 0) => {
    if (!isTheTurn(ms)) return later(work, ms);
    atTheTurn.push(work);
    return 0;
  }) as typeof window.setTimeout;
  window.passMinute = () => {
    aheadMs += 60_000;
    const due = atTheTurn;
    atTheTurn = [];
    if (due.length === 0) throw new Error('Nobody waits for the turn of the minute.');
    for (const work of due) work();
  };
}
