import { readLabel } from '../../packages/domain/src/solution/label/read-label.ts';

/** Pieces of which random labels are made: enough structure to come deep into the reading, and enough that is wrong. */
const PIECES = [
  '01',
  '10',
  '11',
  '17',
  '21',
  '30',
  '91',
  '240',
  '3102',
  '8018',
  '\u001d',
  ']d2',
  ']C1',
  '(',
  ')',
  '(17)',
];
const CHARACTERS = '0123456789ABCxyz-/"%ä \u0000\u{1F600}';

/** A generator of numbers from 0 to 1 from a seed (mulberry32), so that a failure can be had again. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** An expiry of any year; every third has a day or month that does not exist. */
function randomDate(random: () => number): string {
  const two = (most: number) => String(Math.floor(random() * (most + 1))).padStart(2, '0');
  return `17${two(99)}${two(13)}${two(32)}`;
}

function randomText(random: () => number): string {
  const count = Math.floor(random() * 12);
  let text = '';
  for (let index = 0; index < count; index += 1) {
    const kind = random();
    if (kind < 0.15) text += randomDate(random);
    else if (kind < 0.4) text += PIECES[Math.floor(random() * PIECES.length)];
    else if (kind < 0.8) text += String(Math.floor(random() * 1e6)).padStart(6, '0');
    else text += CHARACTERS[Math.floor(random() * CHARACTERS.length)];
  }
  return text;
}

/** What a run of random texts came to. `wrong`: texts that threw, or gave a year more than 50 off. */
export type RandomLabels = { labels: number; unreadable: number; productCodes: number; dates: number; wrong: string[] };

/** Reads `count` random texts as labels. */
export function readRandomLabels(count: number, seed: number): RandomLabels {
  const random = randomFrom(seed);
  const result: RandomLabels = { labels: 0, unreadable: 0, productCodes: 0, dates: 0, wrong: [] };
  for (let index = 0; index < count; index += 1) {
    const text = randomText(random);
    const thisYear = 2000 + Math.floor(random() * 100);
    try {
      const read = readLabel(text, thisYear);
      if (read.is === 'unreadable') result.unreadable += 1;
      else if (read.is === 'productCode') result.productCodes += 1;
      else {
        result.labels += 1;
        for (const date of [read.label.expiresOn, read.label.madeOn]) {
          if (date === null) continue;
          result.dates += 1;
          const ahead = Number(date.slice(0, 4)) - thisYear;
          // the calendar itself says whether such a day exists
          const exists = new Date(`${date}T00:00:00Z`).toISOString().slice(0, 10) === date;
          if (ahead < -49 || ahead > 50 || !exists) result.wrong.push(text);
        }
      }
    } catch {
      result.wrong.push(text);
    }
  }
  return result;
}
