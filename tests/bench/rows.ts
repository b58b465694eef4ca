import type { Row } from './harness/measure.ts';
import { alarms } from './rows/alarms.ts';
import { board } from './rows/board.ts';
import { buffers } from './rows/buffers.ts';
import { entry } from './rows/entry.ts';
import { label } from './rows/label.ts';
import { pixel } from './rows/pixel.ts';
import { rules } from './rows/rules.ts';
import { script } from './rows/script.ts';
import { sheet } from './rows/sheet.ts';
import { streams } from './rows/streams.ts';
import { tick } from './rows/tick.ts';

/** The table, in its order. */
export const ROWS: readonly Row[] = [board, entry, buffers, streams, pixel, alarms, rules, tick, label, sheet, script];
