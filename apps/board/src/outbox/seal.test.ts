import { describe, expect, it } from 'vitest';
import { type Binding, importKey, seal, unseal } from './seal.ts';

const binding: Binding = { accountId: 'lindahl', device: 'tablet', format: 2, what: 'touch' };
const keyOf = (fill: number) => importKey(btoa(String.fromCharCode(...new Uint8Array(32).fill(fill))));

describe('what is kept on a device', () => {
  it('opens with its key, and says nothing without it', async () => {
    const sealed = await seal(await keyOf(1), binding, { family: 'BRANNOCK' });
    expect(await unseal(await keyOf(1), binding, sealed)).toEqual({ family: 'BRANNOCK' });
    expect(new TextDecoder('latin1').decode(sealed.sealed)).not.toContain('BRANNOCK');
    await expect(unseal(await keyOf(2), binding, sealed)).rejects.toThrow();
  });

  it('opens as nothing but what it was sealed as', async () => {
    const key = await keyOf(1);
    const sealed = await seal(key, binding, 'x');
    for (const other of [{ accountId: 'okoro' }, { device: 'phone' }, { format: 1 }, { what: 'view' }])
      await expect(unseal(key, { ...binding, ...other }, sealed)).rejects.toThrow();
  });

  it('is never sealed twice under the same vector', async () => {
    const key = await keyOf(1);
    const vectors = await Promise.all(Array.from({ length: 200 }, async () => (await seal(key, binding, 'x')).iv));
    expect(new Set(vectors.map(String)).size).toBe(200);
  });

  it('hands its key to no script', async () => {
    await expect(crypto.subtle.exportKey('raw', await keyOf(1))).rejects.toThrow();
  });
});
