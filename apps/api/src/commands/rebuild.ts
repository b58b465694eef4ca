// npm run rebuild: folds the state of every patient anew from the entries.
import { createPolicies } from '../record/policies.ts';
import { rebuild } from '../record/rebuild.ts';
import { runCommand } from './command.ts';

await runCommand(async ({ config, pool }) => {
  let toldAt = performance.now();
  const patients = await rebuild(pool, createPolicies(), config.site.id, (done, of) => {
    if (performance.now() - toldAt < 1000) return;
    toldAt = performance.now();
    console.log(`  ${done} of ${of} patients`);
  });
  console.log(`Rebuilt the state of ${patients} patients from their entries.`);
});
