import { describe, expect, it } from 'vitest';
import { readDuration } from './read-duration.ts';

const read = (text: string) => readDuration(text, 10, 1440);

describe('a dwell as people write it', () => {
  it.each([
    ['4 h 30 min', 270],
    ['4h30', 270],
    ['9 h', 540],
    ['90 min', 90],
    ['1 h 05 min', 65],
  ])('%s', (text, minutes) => expect(read(text)).toEqual({ minutes, problem: null }));
  it.each(['4', '270', '4.5 h', '4:30', 'four hours'])('%s is asked about, never guessed', (text) => {
    expect(read(text)).toMatchObject({ minutes: null, problem: expect.stringContaining('write') });
  });
  // Typed range of a dwell: 10 min to 24 h (clinical reference §1).
  it.each(['5 min', '25 h'])('%s is out of range', (text) => {
    expect(read(text).problem).toContain('10 min to 24 h');
  });
});
