import { STATISTICS } from './compute/statistics.ts';
import { describeRows } from './describe-rows.ts';

describeRows('statistics', STATISTICS);
