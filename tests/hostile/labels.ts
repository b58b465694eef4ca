// node_modules/.bin/node tests/hostile/labels.ts [COUNT] [SEED]: random texts into the label reader, 1,000,000 by default.
import { readRandomLabels } from '../support/random-labels.ts';

const [count = '1000000', seed = String(Date.now() % 1e9)] = process.argv.slice(2);
const { wrong, ...counts } = readRandomLabels(Number(count), Number(seed));
console.log(`${count} texts, seed ${seed}: ${JSON.stringify(counts)}; wrong: ${wrong.length}`);
for (const text of wrong.slice(0, 10)) console.error(JSON.stringify(text));
process.exitCode = wrong.length === 0 ? 0 : 1;
