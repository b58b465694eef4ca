import { type BedsideState, boardRow, type PatientIdentity, type WardPolicy, wallRow } from '@slackwater/domain';

/** What a board may show: all to staff; to a wall display, where everybody passes, no names. */
export type Projection = 'staff' | 'wall';

export const PROJECTIONS: readonly Projection[] = ['staff', 'wall'];

/** One row of a board, ready to be sent. */
export type RowTexts = Readonly<Record<Projection, string>>;

/** Makes both projections of a row once; every stream and every snapshot sends the same bytes. */
export function rowTexts(
  state: BedsideState,
  patient: PatientIdentity,
  policy: WardPolicy,
  context: { version: number; likeNameBeds: readonly string[] },
): RowTexts {
  const row = boardRow(state, patient, policy, context);
  return { staff: JSON.stringify(row), wall: JSON.stringify(wallRow(row)) };
}
