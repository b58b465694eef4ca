// One of several processes that write at once: node writer.ts DATABASE_URL '{"writers","rounds","accountId","patientIds"}'
import { MINUTE_MS } from '@slackwater/domain';
import { createPolicies } from '../../../apps/api/src/record/policies.ts';
import { createRecord } from '../../../apps/api/src/record/record.ts';
import { draft, pool, send } from '../record-ward.ts';

export type WriterJob = { rounds: number; accountId: string; patientIds: readonly string[] };

const [url, job] = process.argv.slice(2);
const { rounds, accountId, patientIds } = JSON.parse(job!) as WriterJob;
const db = pool(url!, patientIds.length);
const record = createRecord({ pool: db, policies: createPolicies() });

await Promise.all(
  patientIds.map(async (patientId) => {
    for (let round = 0; round < rounds; round += 1) {
      const weight = draft(
        'weight',
        { weightKg: 60 + round, cavity: 'full' },
        { patientId, happenedAt: Date.now() - MINUTE_MS },
      );
      const result = await send(record, { accountId, role: 'nurse' }, [weight]);
      if (!result.ok) throw new Error(JSON.stringify(result.failure));
      process.stdout.write(`${weight.id} ${result.appended.receipts[0]!.position}\n`);
    }
  }),
);
await db.end();
