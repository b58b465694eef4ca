import { ADEQUACY } from './compute/adequacy.ts';
import { describeRows } from './describe-rows.ts';

describeRows('adequacy', ADEQUACY);
