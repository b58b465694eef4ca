import { describe, expect, it } from 'vitest';
import { hashPassword, isPassword } from './password.ts';

describe('a password', () => {
  it('is known again by its hash, and no other is', async () => {
    const hash = await hashPassword('correct horse battery staple');
    expect(await isPassword('correct horse battery staple', hash)).toBe(true);
    expect(await isPassword('correct horse battery stapler', hash)).toBe(false);
    expect(await isPassword('', hash)).toBe(false);
  });

  it('has another hash each time, in PHC form with the parameters of the OWASP cheat sheet', async () => {
    const [one, other] = [await hashPassword('same'), await hashPassword('same')];
    expect(one).not.toBe(other);
    expect(one).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$[\w+/]{22}\$[\w+/]{43}$/);
  });

  // Source: test vectors of the reference implementation (phc-winner-argon2, src/test.c, argon2id, v 0x13), from memory
  it('is hashed as the reference implementation does', async () => {
    const vectors = [
      { m: 65536, hash: 'CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc' },
      { m: 256, hash: 'nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4' },
    ];
    for (const { m, hash } of vectors) {
      const phc = `$argon2id$v=19$m=${m},t=2,p=1$c29tZXNhbHQ$${hash}`;
      expect(await isPassword('password', phc), phc).toBe(true);
      expect(await isPassword('Password', phc), phc).toBe(false);
    }
  });

  it('is one however its accents were typed', async () => {
    expect(await isPassword('cafe\u0301 au lait', await hashPassword('caf\u00e9 au lait'))).toBe(true);
  });

  it('is never right where there is no account, nor behind what is no hash', async () => {
    expect(await isPassword('anything', null)).toBe(false);
    expect(await isPassword('anything', 'anything')).toBe(false);
  });
});

describe('many sign-ins at once', () => {
  it('are answered "busy" beyond the queue, and the others are served', async () => {
    const all = await Promise.allSettled(Array.from({ length: 80 }, () => isPassword('x', null)));
    const refused = all.filter((one) => one.status === 'rejected');
    expect(refused).toHaveLength(14);
    for (const one of refused) expect(one.reason).toMatchObject({ code: 'busy' });
    // 66 passwords are really hashed
  }, 30_000);
});
