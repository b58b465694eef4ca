import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { projectRoot } from '@slackwater/tools/paths';
import { openBoardPage } from '../harness/board-page.ts';
import { pool } from '../harness/databases.ts';
import type { Row } from '../harness/measure.ts';
import { serveApp } from '../harness/servers.ts';
import { seedWard } from '../harness/ward.ts';

/** All script that a browser takes from the first request until the first row of the board stands there. */
export const script: Row = {
  name: 'script',
  async run({ databases }) {
    const database = await databases.open();
    const db = pool(database.appUrl);
    await seedWard(db, 24);
    await db.end();
    const app = await serveApp(database.appUrl);
    const board = await openBoardPage(app, { serviceWorkers: 'block' });
    try {
      const { page } = board;
      const asked = new Set<string>();
      page.on('request', (request) => {
        if (request.resourceType() === 'script' || request.url().endsWith('.js'))
          asked.add(new URL(request.url()).pathname);
      });
      await board.open();
      const files = [...asked];
      const sizes = await Promise.all(
        files.map(async (path) => gzipSync(await readFile(join(projectRoot, 'apps/board/dist', path))).length),
      );
      return [
        {
          what: 'script to first board, gzip',
          value: sizes.reduce((sum, size) => sum + size, 0) / 1000,
          unit: 'kB',
          bar: { at: 'most', value: 170 },
          quartiles: null,
          beside: `${files.length} files, 1 kB = 1,000 bytes`,
        },
      ];
    } finally {
      await board.close();
      await app.stop();
      await database.drop();
    }
  },
};
