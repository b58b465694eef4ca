import { draft, signIn } from '@slackwater/contract';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { problemsOf } from './problems.zod.ts';

const problems = (schema: z.ZodType, value: unknown) => {
  const read = schema.safeParse(value, { reportInput: true });
  return read.success ? [] : problemsOf(read.error, 'body');
};

const entry = (kind: string, payload: unknown) => ({
  id: '019a0000-0000-7000-8000-000000000001',
  kind,
  format: 1,
  payload,
  patientId: null,
  visitId: null,
  happenedAt: Date.UTC(2026, 10, 25),
  after: null,
});

describe('a problem', () => {
  it('names the field, the value and the allowed range', () => {
    expect(problems(draft, entry('weight', { weightKg: 500, cavity: 'full' }))).toEqual([
      {
        code: 'too_big',
        field: 'payload.weightKg',
        value: 500,
        allowed: 'a number from 1 to 350',
        message: 'payload.weightKg: 500 is not a number from 1 to 350',
      },
    ]);
  });

  it('says which words are possible', () => {
    expect(problems(draft, entry('weight', { weightKg: 72, cavity: 'half' }))[0]).toMatchObject({
      field: 'payload.cavity',
      value: 'half',
      allowed: 'one of full, empty',
    });
  });

  it('says which form of several is possible', () => {
    const [problem] = problems(draft, entry('endFill', { infused: { basis: 'guessed', volumeMl: 2000 } }));
    expect(problem).toMatchObject({
      field: 'payload.infused.basis',
      allowed: 'one of wholeBag, computed, stated, notKnown',
    });
  });

  it('is told for each unknown field', () => {
    const found = problems(draft, entry('connect', { a: 1, b: 2 }));
    expect(found.map(({ field, allowed }) => [field, allowed])).toEqual([
      ['payload.a', 'not given'],
      ['payload.b', 'not given'],
    ]);
  });

  it('never repeats a password', () => {
    const found = problems(signIn, { login: 'nia', password: ['secret word'] });
    expect(found).toHaveLength(1);
    expect(JSON.stringify(found)).not.toContain('secret');
  });

  it('does not send back a long value', () => {
    const found = problems(z.strictObject({ name: z.literal('x') }), { name: 'long '.repeat(100) });
    expect(found[0]!.value).toBeNull();
    expect(found[0]!.message.length).toBeLessThan(200);
  });
});
