// npm run bench [-- NAME …] [--short] [--write]: every row of README.md's table, or those named.
import { parseArgs } from 'node:util';
import { GENERATOR_CORE, pin } from './harness/cores.ts';
import { openDatabases } from './harness/databases.ts';
import { machineWords } from './harness/machine.ts';
import { FULL, type Measure, SHORT } from './harness/measure.ts';
import { tableOf, writeTable } from './harness/report.ts';
import { ROWS } from './rows.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { short: { type: 'boolean', default: false }, write: { type: 'boolean', default: false } },
});
const names = ROWS.map(({ name }) => name);
const unknown = positionals.filter((name) => !names.includes(name));
if (unknown.length > 0) {
  console.error(`There is no row ${unknown.join(', ')}. Rows: ${names.join(', ')}.`);
  process.exit(1);
}
if (values.write && (values.short || positionals.length > 0)) {
  console.error('--write takes a whole, full run: numbers of different runs do not belong in one table.');
  process.exit(1);
}

const databases = await openDatabases();
// from here on, so that the database is left where the machine puts it
pin(process.pid, GENERATOR_CORE);
for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.once(signal, () => databases.stop().finally(() => process.exit(1)));
}
const measures: Measure[] = [];
try {
  for (const { name, run } of ROWS) {
    if (positionals.length > 0 && !positionals.includes(name)) continue;
    const startedAt = performance.now();
    const found = await run({ databases, pace: values.short ? SHORT : FULL });
    measures.push(...found);
    console.log(`\n${name}, ${Math.round((performance.now() - startedAt) / 1000)} s\n${tableOf(found)}`);
  }
  const machine = machineWords(databases.version);
  console.log(`\n${machine}\n\n${tableOf(measures)}`);
  if (values.write) await writeTable(tableOf(measures), machine, new Date());
} finally {
  await databases.stop();
}
