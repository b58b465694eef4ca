/** The columns of a flow sheet, in any order, each exactly once: README, "Bringing a flow sheet in". */
export const COLUMNS = [
  'ward',
  'hospital_number',
  'drain_start',
  'drain_end',
  'drained_ml',
  'appearance',
  'fill_start',
  'fill_end',
  'filled_ml',
  'solution',
  'note',
] as const;

export type Column = (typeof COLUMNS)[number];
export type RawRow = Readonly<Record<Column, string>>;
