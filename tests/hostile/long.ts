// npm run test:hostile: every route a thousand times, spoilt at random. FUZZ_ROUNDS and FUZZ_SEED for others. A million
// random texts go into the label reader by tests/hostile/labels.ts.
import { runLong } from '../support/long-run.ts';

runLong('api', ['tests/hostile/fuzz.test.ts'], { FUZZ_ROUNDS: '1000' });
