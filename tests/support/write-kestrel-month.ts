// node tests/support/write-kestrel-month.ts: writes the invented month anew; its test says when that is due.
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { kestrelMonth } from '@slackwater/api/demo/month';
import { projectRoot } from '@slackwater/tools/paths';

const { sheet, people } = kestrelMonth();
await writeFile(join(projectRoot, 'shared/scenario/kestrel-month.csv'), sheet);
await writeFile(join(projectRoot, 'shared/scenario/kestrel-month-people.csv'), people);
