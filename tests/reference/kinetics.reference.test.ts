import { KINETICS } from './compute/kinetics.ts';
import { describeRows } from './describe-rows.ts';

describeRows('kinetics', KINETICS);
