import { PassThrough, Readable } from 'node:stream';
import { expect, test } from 'vitest';
import { upload } from './import.upload.ts';

const LIMITS = {
  mostBytes: 10,
  longestPauseMs: 20,
  tooLarge: () => new Error('too large'),
  stalled: () => new Error('stalled'),
};

const all = async (source: Readable) => {
  let text = '';
  for await (const chunk of upload(source, LIMITS)) text += Buffer.from(chunk);
  return text;
};

test('passes on what arrives', async () => {
  expect(await all(Readable.from([Buffer.from('12345'), Buffer.from('67890')]))).toBe('1234567890');
});

test('ends what is too large', async () => {
  await expect(all(Readable.from([Buffer.from('12345'), Buffer.from('678901')]))).rejects.toThrow('too large');
});

test('gives up what stops arriving', async () => {
  const source = new PassThrough();
  source.write('12345');
  await expect(all(source)).rejects.toThrow('stalled');
  expect(source.destroyed).toBe(true);
});

test('waits for whoever works on what has arrived', async () => {
  const chunks = upload(Readable.from([Buffer.from('12345'), Buffer.from('67890')]), LIMITS);
  await chunks.next();
  await new Promise((resolve) => setTimeout(resolve, 3 * LIMITS.longestPauseMs));
  expect((await chunks.next()).done).toBe(false);
  expect((await chunks.next()).done).toBe(true);
});
