import { z } from 'zod';

/** Earliest and latest instant that a request may name: the years 2000 to 2099. */
const FIRST_INSTANT = Date.UTC(2000, 0, 1);
const LAST_INSTANT = Date.UTC(2100, 0, 1);

// Every message below says what is allowed, since problem documents quote it as the allowed range.

/** A whole number within a range. */
export const whole = (least: number, most: number) => {
  const error = `a whole number from ${least} to ${most}`;
  return z.int({ error }).min(least, { error }).max(most, { error });
};

/** A number within a range. */
export const real = (least: number, most: number) => {
  const error = `a number from ${least} to ${most}`;
  return z.number({ error }).min(least, { error }).max(most, { error });
};

const instantRange = { error: 'an instant in whole milliseconds since 1970, in the years 2000 to 2099' };

/** A whole number of milliseconds since 1970-01-01T00:00:00Z. */
export const instant = z.int(instantRange).min(FIRST_INSTANT, instantRange).max(LAST_INSTANT, instantRange);

/** Patients, accounts, visits and entries; read in either case (RFC 9562, section 4), kept in lower case. */
export const uuid = z.uuid({ error: 'a UUID' }).toLowerCase();

/** A ward's slug, as it stands in addresses. */
export const wardId = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, 'the slug of a ward: lower-case letters, digits and hyphens');

/** A solution of the formulary. */
export const solutionId = z.string().regex(/^[a-z0-9][a-z0-9.-]{0,59}$/, 'an id of the formulary');

/** An item of a prescription; made by the author's device. */
export const itemId = z.string().regex(/^[\w.-]{1,64}$/, '1 to 64 letters, digits, dots, hyphens');

/** A calendar date, `YYYY-MM-DD`, that exists. */
export const calendarDate = z.iso.date({ error: 'a date that exists, YYYY-MM-DD', abort: true });

/** A wall-clock time of the ward, `HH:MM`. */
export const clockTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'HH:MM, 00:00 to 23:59');

/**
 * Whether text can be stored and shows what it holds. Postgres stores neither NUL nor half a surrogate pair; other
 * control characters would hide in print; overrides of the writing direction would show one name as another.
 */
export const isPrintable = (value: string): boolean =>
  value.isWellFormed() && !/[\p{Cc}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/u.test(value.replaceAll(/[\n\t]/g, ''));

/** Text that a person wrote: not blank, printable, at most `most` characters. */
export const text = (most: number) => {
  const error = `printable text, 1 to ${most} characters`;
  return z
    .string({ error })
    .min(1, { error, abort: true })
    .max(most, { error, abort: true })
    .refine((value) => value.trim() !== '' && isPrintable(value), { error });
};

/** What does not show, or shows as a plain space does. */
const UNSEEN = /[\n\t\u00ad\u200b\u200e\u200f\u2060\ufeff]|[^\P{Zs} ]/u;

/**
 * One line by which people, places or devices are told apart, at most `most` characters: two that look alike would be
 * two, so nothing in it is unseen, and no spaces stand around it.
 */
export const line = (most: number) => {
  const error = `one line of printable text, 1 to ${most} characters, no spaces around it`;
  return z
    .string({ error })
    .min(1, { error, abort: true })
    .max(most, { error, abort: true })
    .refine((value) => value === value.trim() && isPrintable(value) && !UNSEEN.test(value), { error });
};

/** A longer remark; null where none was made. */
export const note = text(2_000).nullable();

/** A volume in whole mL. The ward's own, narrower ranges are the domain's to judge. */
export const volumeMl = whole(0, 20_000);

/** A volume that something must have. */
export const someVolumeMl = whole(1, 20_000);

export const minutes = whole(0, 7 * 24 * 60);

/** A payload that says nothing beyond its kind. */
export const nothing = z.strictObject({});
