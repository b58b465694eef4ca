// npm run verify [-- --anchor WARD:POSITION:DIGEST …]: walks the chain of every ward, from the first entry to the head.
import { parseArgs } from 'node:util';
import { type Anchor, verify } from '../record/verify.ts';
import { runCommand } from './command.ts';

await runCommand(async ({ config, pool }) => {
  const { values } = parseArgs({ options: { anchor: { type: 'string', multiple: true, default: [] } } });
  const { wards, faults } = await verify(pool, config.site.id, values.anchor.map(anchorOf));
  for (const { wardId, position, digest, erased } of wards) {
    console.log(`${wardId}: ${position} entries, head ${digest}${erased ? `, ${erased} erased by law` : ''}`);
  }
  for (const { wardId, position, what } of faults) console.error(`${wardId} at ${position}: ${what}`);
  if (faults.length > 0) throw new Error(`The record does not hold: ${faults.length} faults.`);
  console.log('The record holds.');
});

/** A head as it was printed or logged once: a chain alone does not show that its end was cut off. */
function anchorOf(text: string): Anchor {
  const parts = /^([a-z0-9-]+):(\d+):([0-9a-f]{64})$/.exec(text);
  if (!parts)
    throw new Error(`--anchor ${text} is not possible: WARD:POSITION:DIGEST, the digest of 64 hexadecimal digits.`);
  const [, wardId, position, digest] = parts as unknown as [string, string, string, string];
  return { wardId, position: Number(position), digest };
}
