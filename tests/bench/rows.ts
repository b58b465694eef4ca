import type { Row } from './harness/measure.ts';
import { alarms } from './rows/alarms.ts';
import { board } from './rows/board.ts';
import { buffers } from './rows/buffers.ts';
import { entry } from './rows/entry.ts';
import { kinetics } from './rows/kinetics.ts';
import { label } from './rows/label.ts';
import { memory } from './rows/memory.ts';
import { pixel } from './rows/pixel.ts';
import { rules } from './rows/rules.ts';
import { script } from './rows/script.ts';
import { sheet } from './rows/sheet.ts';
import { streams } from './rows/streams.ts';
import { tick } from './rows/tick.ts';

/** The table, in its order. */
export const ROWS: readonly Row[] = [
  board,
  entry,
  buffers,
  streams,
  pixel,
  alarms,
  memory,
  rules,
  tick,
  label,
  kinetics,
  sheet,
  script,
];
