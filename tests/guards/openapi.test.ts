import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describeApi } from '@slackwater/api/describe-api';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, test } from 'vitest';

test('shared/openapi.json is what the routes say (npm run openapi writes it)', async () => {
  const written = await readFile(join(projectRoot, 'shared/openapi.json'), 'utf8');
  expect(JSON.parse(written)).toEqual(JSON.parse(await describeApi()));
});
