import { TRANSPORT } from './compute/transport.ts';
import { describeRows } from './describe-rows.ts';

describeRows('transport', TRANSPORT);
