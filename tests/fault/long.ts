// npm run test:fault: a thousand faults at random. STORM_FAULTS for another number, STORM_SEED for another storm,
// STORM_MINUTES for one that is over after so many.
import { runLong } from '../support/long-run.ts';

runLong('api', ['tests/fault/storm.test.ts'], { STORM_FAULTS: '1000' });
