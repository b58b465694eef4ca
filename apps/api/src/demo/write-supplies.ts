import { randomUUIDv7 } from 'node:crypto';
import { type Entry, type EpochMs, NO_SUPPLIES, STANDARD_FORMULARY, withSupplyChange } from '@slackwater/domain';
import type { PoolClient } from 'pg';
import { write } from '../record/write.ts';
import { DEMONSTRATION_SUPPLIES } from './products.ts';

/** The formulary's version before anything was listed. */
const FIRST_VERSION = 1;

/** Writes what the demonstration knows of products and lots, each change an entry of the ward. */
export async function writeSupplies(
  client: PoolClient,
  { siteId, wardId, author, now }: { siteId: string; wardId: string; author: string; now: EpochMs },
): Promise<void> {
  let supplies = NO_SUPPLIES;
  for (const [index, change] of DEMONSTRATION_SUPPLIES.entries()) {
    const id = randomUUIDv7();
    const changed = withSupplyChange(supplies, change, { id, at: now }, STANDARD_FORMULARY);
    if (changed.problems.length > 0) throw new Error(`The demonstration's products: ${changed.problems[0]?.message}`);
    supplies = changed.supplies;
    const entry: Entry<'suppliesChanged'> = {
      id,
      kind: 'suppliesChanged',
      format: 1,
      payload: { change },
      siteId,
      wardId,
      patientId: null,
      visitId: null,
      happenedAt: now,
      after: null,
      deviceAt: now,
      receivedAt: now,
      author,
      position: 0,
    };
    const written = await write(client, {
      siteId,
      wardId,
      bedsides: [],
      entries: [entry],
      rows: {},
      replace: false,
      settings: null,
      supplies: { ...supplies, version: FIRST_VERSION + index + 1, entryId: id },
    });
    if (written === null) throw new Error('The demonstration met another writer.');
  }
}
