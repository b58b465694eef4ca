import { randomInt } from 'node:crypto';
import { hashToken } from '../../access/tokens.ts';

/** Nothing that is read as something else from a screen: no I, L, O, U, 0, 1. */
const LETTERS = '23456789ABCDEFGHJKMNPQRSTVWXYZ';
const GROUPS = 3;
const GROUP_LENGTH = 4;

/** A code to be typed on a device without a keyboard of its own: 58 random bits in three groups of four. */
export const newWallCode = (): string =>
  Array.from({ length: GROUPS }, () =>
    Array.from({ length: GROUP_LENGTH }, () => LETTERS[randomInt(LETTERS.length)]).join(''),
  ).join('-');

/** What is kept of a code, however it was typed. */
export const hashWallCode = (typed: string): Buffer => hashToken(typed.toUpperCase().replaceAll(/[^0-9A-Z]/g, ''));
