import type { BoardRow, WallRow } from '@slackwater/domain';
import { z } from 'zod';
import type { BoardDelta, BoardSnapshot, WallDelta, WallSnapshot } from '../board.ts';
import { patientIdentity } from '../patients.ts';
import { assignment, due, offWard, openAlert, visitHead } from './bedside.ts';
import { at, atOrNull, balance, cavity, id, ml } from './cavity.ts';
import { hold } from './prescription.ts';

const bagShown = { strength: z.string(), fillMl: z.number() };
const away = z.strictObject({ where: z.string(), why: z.string(), leavesAt: at, backAt: at });

const shownToAll = {
  bed: z.string(),
  version: z.int(),
  cavity,
  inside: z.looseObject({ bookMl: ml, flowMl: ml, flowVarianceMl2: ml }),
  insideStrength: z.string().nullable(),
  visit: visitHead.nullable(),
  standingAt: atOrNull,
  hasAdditives: z.boolean(),
  waitsForSecondPersonSince: atOrNull,
  due: due.nullable(),
  laterDrainsAt: z.array(at),
  drainWindow: z.strictObject({ from: at, to: at }).nullable(),
  cycle: z.strictObject({ number: z.int(), minutes: z.number() }).nullable(),
  next: z
    .strictObject({
      solution: z.string(),
      ...bagShown,
      doubts: z.array(
        z.union([
          z.strictObject({ why: z.literal('condition'), condition: z.string() }),
          z.strictObject({ why: z.enum(['whichItem', 'severalOrders']), others: z.array(z.strictObject(bagShown)) }),
        ]),
      ),
    })
    .nullable(),
  stayEmpty: z.strictObject({ orderId: id, drainBy: at, until: at, away: away.nullable() }).nullable(),
  hold: hold.nullable(),
  fluidHandover: z.strictObject({ at, toWhom: z.string() }).nullable(),
  offWard,
  lastDwell: z.strictObject({ drainedAt: atOrNull, drainMinusFillMl: ml, complete: z.boolean() }).nullable(),
  day: balance,
  shift: balance,
  alerts: z.array(openAlert),
  nurse: assignment.nullable(),
  workUp: z
    .strictObject({
      openedAt: at,
      metCount: z.int(),
      awaiting: z.array(z.enum(['sample', 'count', 'culture'])),
    })
    .nullable(),
  ribbon: z.array(
    z.strictObject({
      from: at,
      to: atOrNull,
      as: z.enum(['dwelling', 'draining', 'filling', 'empty', 'unknown']),
      fromMl: ml,
      toMl: ml,
    }),
  ),
};

const boardRow: z.ZodType<BoardRow> = z
  .strictObject({ patient: patientIdentity, likeNameBeds: z.array(z.string()), ...shownToAll })
  .meta({ id: 'BoardRow' });

const wallRow: z.ZodType<WallRow> = z
  .strictObject({ initials: z.string(), ...shownToAll })
  .meta({ id: 'WallRow', description: 'Initials instead of the patient.' });

const snapshotOf = <T>(row: z.ZodType<T>) =>
  z.strictObject({ epoch: id, wardId: id, position: z.int(), rows: z.array(row) });
const deltaOf = <T>(row: z.ZodType<T>) =>
  z.strictObject({ epoch: id, from: z.int(), to: z.int(), rows: z.array(row), gone: z.array(id) });

/** The whole, or with `?since=` what changed. */
export const boardAnswer: z.ZodType<BoardSnapshot | BoardDelta> = z.union([snapshotOf(boardRow), deltaOf(boardRow)]);
export const wallAnswer: z.ZodType<WallSnapshot | WallDelta> = z.union([snapshotOf(wallRow), deltaOf(wallRow)]);
