import { SOLUTION_COMPOSITION } from './compute/solution-composition.ts';
import { describeRows } from './describe-rows.ts';

describeRows('solution-composition', SOLUTION_COMPOSITION);
