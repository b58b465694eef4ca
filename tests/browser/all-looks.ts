// npm run test:looks: every page that axe is asked of, in every theme.
import { runLong } from '../support/long-run.ts';

const FILES = ['bedside-looks', 'looks', 'before-bed'].map((name) => `tests/browser/${name}.test.ts`);

runLong('browser', FILES, { LOOKS: 'all' });
