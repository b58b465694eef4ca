import { UNITS } from './compute/units.ts';
import { describeRows } from './describe-rows.ts';

describeRows('units', UNITS);
