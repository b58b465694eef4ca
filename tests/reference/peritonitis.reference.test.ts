import { PERITONITIS } from './compute/peritonitis.ts';
import { describeRows } from './describe-rows.ts';

describeRows('peritonitis', PERITONITIS);
