import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';

/**
 * Names what the browsers run: changes with the built board, so that an older one knows to reload between patients.
 * @param boardFolder null: the API alone
 */
export async function buildId(boardFolder: string | null): Promise<string> {
  if (boardFolder === null) return 'api';
  const page = await readFile(join(boardFolder, 'index.html')).catch(() => 'not built');
  return createHash('sha256').update(page).digest('hex').slice(0, 12);
}
