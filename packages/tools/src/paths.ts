import { join } from 'node:path';

export const projectRoot = join(import.meta.dirname, '../../..');
export const migrationsFolder = join(projectRoot, 'prisma/migrations');

/** Where the embedded database lives; `SLACKWATER_DATA` moves it. */
export const defaultDataFolder = join(projectRoot, '.data');
