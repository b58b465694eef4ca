import type { Draft } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { refusal } from './judge-types.ts';

/**
 * Why an entry cannot wait on a device without network: a second person's check holds for minutes by the database's
 * clock, and nobody else can be asked from a device that reaches nobody.
 * @returns null for what may wait
 */
export function needsServer({ kind, payload }: Pick<Draft, 'kind' | 'payload'>): Problem | null {
  const isFill = kind === 'startFill' && 'additives' in payload && payload.additives.length > 0;
  // What was given on paper while there was no network is entered afterwards, and may wait like anything else.
  if (isFill && !('afterwards' in payload && payload.afterwards)) return refusal('needs-the-server', WHY, 'kind', kind);
  if (kind !== 'additiveCheckAsked' && kind !== 'additiveChecked') return null;
  return refusal('needs-the-server', WHY, 'kind', kind);
}

const WHY =
  'No connection: a bag with something added is checked by a second person over the server. Check it together on ' +
  'paper by local policy, and enter the exchange afterwards with the name of the second person.';
