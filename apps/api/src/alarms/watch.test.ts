import { expect, it } from 'vitest';
import { createWatch } from './watch.ts';

const LATER_MS = 3_600_000;

/** A look that lasts until it is let go. */
function slowLook() {
  let looks = 0;
  let letGo: (waitMs: number) => void = () => undefined;
  let begun: () => void = () => undefined;
  return {
    looks: () => looks,
    look: () => {
      looks += 1;
      begun();
      return new Promise<number>((resolve) => {
        letGo = resolve;
      });
    },
    begins: () =>
      new Promise<void>((resolve) => {
        begun = resolve;
      }),
    ends: (waitMs: number) => letGo(waitMs),
  };
}

const turn = () => new Promise((resolve) => setTimeout(resolve, 20));

it('asked while it looks, it looks again afterwards, and goes on for ever', async () => {
  const slow = slowLook();
  const watch = createWatch(slow.look, (error) => expect.fail(error.message));
  const first = slow.begins();
  watch.lookIn(0);
  await first;
  watch.lookIn(0);
  // the timer of the second asking fires while the first look is under way
  await turn();
  expect(slow.looks()).toBe(1);
  const second = slow.begins();
  slow.ends(LATER_MS);
  await second;
  const third = slow.begins();
  slow.ends(0);
  await third;
  expect(slow.looks()).toBe(3);
  const stopped = watch.stop();
  slow.ends(0);
  await stopped;
});

it('looks again after trouble, which is told', async () => {
  const troubles: string[] = [];
  let looks = 0;
  const again = Promise.withResolvers<void>();
  const watch = createWatch(
    async () => {
      looks += 1;
      if (looks === 1) throw new Error('no database');
      again.resolve();
      return LATER_MS;
    },
    ({ message }) => troubles.push(message),
  );
  watch.lookIn(0);
  await again.promise;
  expect(troubles).toEqual(['no database']);
  await watch.stop();
});

it('stopped, it looks no more', async () => {
  let looks = 0;
  const watch = createWatch(
    async () => {
      looks += 1;
      return 0;
    },
    () => undefined,
  );
  watch.lookIn(0);
  await watch.stop();
  await turn();
  const seen = looks;
  await turn();
  expect(looks).toBe(seen);
});
