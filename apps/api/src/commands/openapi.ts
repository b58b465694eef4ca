// npm run openapi: writes shared/openapi.json from the routes.
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { projectRoot } from '@slackwater/tools/paths';
import { describeApi } from '../describe-api.ts';

const file = join(projectRoot, 'shared/openapi.json');
await writeFile(file, await describeApi());
console.log(`${file} describes the routes.`);
