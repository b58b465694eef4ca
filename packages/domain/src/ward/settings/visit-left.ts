import { COMMON, setting } from './setting.ts';

/** How long each step of a visit may stand before somebody is told. */
export const VISIT_LEFT = {
  preparingMinutes: setting([15, 5, 60], 'min', 'T', COMMON, 'A visit left preparing longer than this stands'),
  connectedMinutes: setting([10, 5, 60], 'min', 'T', COMMON, 'A visit left connected longer than this stands'),
  drainedMinutes: setting([15, 5, 60], 'min', 'T', COMMON, 'A visit left drained longer than this stands'),
  fillingMinutes: setting([30, 5, 90], 'min', 'T', COMMON, 'A fill left running longer than this stands'),
  closingMinutes: setting([15, 5, 60], 'min', 'T', COMMON, 'A visit left closing longer than this stands'),
};
