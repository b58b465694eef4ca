// npm run demo:play -- [--url http://127.0.0.1:4600] [--speed 20]
// Simulated nurses work the demonstration ward against the public API until Ctrl-C.
import { parseArgs } from 'node:util';
import { DEMONSTRATION_PASSWORD } from '../demo/accounts.ts';
import { type Client, Refused, signIn } from '../demo/play/client.ts';
import { play } from '../demo/play/play.ts';
import { loadScenario } from '../demo/scenario.ts';

const { values } = parseArgs({
  options: { url: { type: 'string', default: 'http://127.0.0.1:4600' }, speed: { type: 'string', default: '20' } },
});

const fail = (words: string): never => {
  console.error(words);
  process.exit(1);
};

const speed = Number(values.speed);
if (!(speed >= 1 && speed <= 1000)) fail(`--speed ${values.speed} is not possible: 1 to 1000 times a real visit.`);

let stop = false;
process.on('SIGINT', () => {
  stop = true;
});
process.on('SIGTERM', () => {
  stop = true;
});

try {
  const { ward, staff } = await loadScenario();
  const nurses = new Map<string, Client>();
  let reader: Client | undefined;
  for (const { login, role } of staff) {
    if (role !== 'nurse') continue;
    const client = await signIn(values.url, login, DEMONSTRATION_PASSWORD);
    if (!client.session.demonstration) fail('This database is not marked as a demonstration: nobody plays with it.');
    nurses.set(client.session.account.id, client);
    reader ??= client;
  }
  if (!reader) throw new Error('The scenario has no nurse.');
  console.log(
    `${nurses.size} simulated nurses work ${ward.name} at ${speed} times the pace of a real visit. Ctrl-C stops them.`,
  );
  await play({ wardId: ward.id, speed, nurses, reader, say: console.log, stopped: () => stop });
} catch (error) {
  if (error instanceof Refused) {
    fail(`${values.url} did not let the demonstration in (${error.status} ${error.code}): ${error.message}`);
  }
  const cause = error instanceof Error ? error.message : String(error);
  fail(`The play stopped: ${cause}. Is the tool running at ${values.url} (npm start)?`);
}
