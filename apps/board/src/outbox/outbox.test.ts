import type { Draft } from '@slackwater/domain';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Holder } from './holder.ts';
import { createOutbox, type Parts, type SendResult } from './outbox.ts';
import { importKey } from './seal.ts';
import type { TouchRow } from './store.ts';
import type { Touch } from './touch.ts';

const NOON = Date.UTC(2026, 10, 25, 12);
const RECORDED: SendResult = { is: 'recorded', answer: { receipts: [], bedside: null, position: 1 } };

const touch = (id: string, patientId = 'brannock'): Touch => ({
  wardId: 'kestrel',
  patientId,
  drafts: [{ id } as unknown as Draft],
  writtenAt: NOON,
  clock: { deviceAt: NOON, monotonicAt: 0, life: 1 },
  typed: [],
  timesSaid: false,
});

const idOf = (one: Touch): string => one.drafts[0]?.id ?? '';

/** An outbox over rows in memory and a server that answers as told. */
const open = async (answer: (id: string, attended: boolean) => SendResult) => {
  const rows = new Map<number, TouchRow>();
  const sent: string[] = [];
  const timers: (() => void)[] = [];
  let last = 0;
  let down = false;
  let whileAsked = () => {};
  const parts: Parts = {
    rows: async () => ({
      all: async () => [...rows.values()],
      add: async (row) => {
        last += 1;
        rows.set(last, { ...row, sequence: last });
        return last;
      },
      replace: async (row) => void rows.set(row.sequence, row),
      remove: async (sequence) => void rows.delete(sequence),
    }),
    send: async (one, attended) => {
      if (down) return { is: 'noAnswer' };
      sent.push(idOf(one));
      return answer(idOf(one), attended);
    },
    ready: async () => {
      const answer: SendResult | null = down ? { is: 'noAnswer' } : null;
      whileAsked();
      return answer;
    },
    isDown: () => down,
    now: () => NOON,
    reading: () => ({ deviceAt: NOON, monotonicAt: 0, life: 1 }),
    alone: (work) => work(),
    arrived: () => {},
    changed: () => {},
    later: (_, work) => {
      timers.push(work);
      return () => timers.splice(timers.indexOf(work), 1);
    },
  };
  const outbox = createOutbox(parts);
  const key = await importKey(btoa(String.fromCharCode(...new Uint8Array(32).fill(7))));
  const holder = (accountId = 'lindahl'): Holder => ({
    accountId,
    name: accountId,
    key,
    device: 'tablet',
    store: null!,
  });
  await outbox.hold(holder());
  const cut = (is: boolean) => {
    down = is;
  };
  /** What happens while the server is asked, and before it is known that it does not answer. */
  const meanwhile = (work: () => void) => {
    whileAsked = () => {
      whileAsked = () => {};
      work();
    };
  };
  return { outbox, holder, sent, rows, cut, meanwhile };
};

describe('the outbox of a device', () => {
  it('answers at once with network, and holds nothing back', async () => {
    const { outbox, rows } = await open(() => RECORDED);
    expect(await outbox.put(touch('a'))).toEqual(RECORDED);
    expect(rows.size).toBe(0);
  });

  it('keeps what was written without network, and sends it in the order in which it was written', async () => {
    const { outbox, sent, rows, cut } = await open(() => RECORDED);
    cut(true);
    for (const id of ['a', 'b', 'c']) expect(await outbox.put(touch(id))).toEqual({ is: 'waits' });
    expect(outbox.current().waiting.map(({ state }) => state)).toEqual(['onDevice', 'onDevice', 'onDevice']);
    cut(false);
    await outbox.send();
    expect(sent).toEqual(['a', 'b', 'c']);
    expect(rows.size).toBe(0);
  });

  it('tries again at once when the network comes back in the middle of a try that fails', async () => {
    const { outbox, sent, cut, meanwhile } = await open(() => RECORDED);
    cut(true);
    await outbox.put(touch('a'));
    await outbox.send();
    meanwhile(() => {
      cut(false);
      outbox.networkIsBack();
    });
    await outbox.send();
    expect(sent).toEqual(['a']);
  });

  it('never lets a later touch of a patient overtake one that has to wait; other patients go on', async () => {
    const { outbox, sent, cut } = await open((id) => (id === 'a' ? { is: 'tooEarly' } : RECORDED));
    cut(true);
    await outbox.put(touch('a', 'brannock'));
    await outbox.put(touch('b', 'brannock'));
    await outbox.put(touch('c', 'fennel'));
    cut(false);
    await outbox.send();
    expect(sent.filter((id) => id !== 'a')).toEqual(['c']);
    expect(outbox.current().waiting.map((one) => [idOf(one.touch), one.state])).toEqual([
      ['a', 'afterEarlier'],
      ['b', 'onDevice'],
    ]);
  });

  it('gives a refusal back to whoever looks on, and forgets it; without them it is kept by the server', async () => {
    const refused: SendResult = { is: 'refused', problem: 'no' };
    const { outbox, rows, cut } = await open((_, attended) => (attended ? refused : { is: 'kept' }));
    expect(await outbox.put(touch('a'))).toEqual(refused);
    cut(true);
    await outbox.put(touch('b'));
    cut(false);
    await outbox.send();
    expect(rows.size).toBe(0);
  });

  it('opens nothing of another person, counts it, and leaves it where it is', async () => {
    const { outbox, holder, sent, rows, cut } = await open(() => RECORDED);
    cut(true);
    await outbox.put(touch('a'));
    await outbox.hold(holder('okoro'));
    cut(false);
    await outbox.send();
    expect(outbox.current()).toMatchObject({ waiting: [], others: [{ name: 'lindahl', entries: 1 }] });
    expect([sent, rows.size]).toEqual([[], 1]);
    await outbox.hold(holder('lindahl'));
    await outbox.send();
    expect([sent, rows.size]).toEqual([['a'], 0]);
  });

  it('keeps a row of a newer format untouched, and says so', async () => {
    const { outbox, rows, sent } = await open(() => RECORDED);
    const row = { sequence: 99, format: 99, accountId: 'lindahl', accountName: 'lindahl', entries: 3 } as TouchRow;
    rows.set(99, row);
    await outbox.send();
    expect(outbox.current()).toMatchObject({ waiting: [], newer: 3 });
    expect([rows.get(99), sent]).toEqual([row, []]);
  });

  it('loses nothing and keeps the order, whenever the line goes and comes', async () => {
    const happening = fc.constantFrom('touch' as const, 'cut' as const, 'back' as const, 'send' as const);
    await fc.assert(
      fc.asyncProperty(fc.array(happening, { maxLength: 30 }), async (happenings) => {
        const { outbox, sent, cut } = await open(() => RECORDED);
        const written: string[] = [];
        for (const one of happenings) {
          if (one === 'cut' || one === 'back') cut(one === 'cut');
          else if (one === 'send') await outbox.send();
          else {
            written.push(String(written.length));
            await outbox.put(touch(written.at(-1) ?? ''));
          }
        }
        cut(false);
        await outbox.send();
        expect(sent).toEqual(written);
      }),
      { numRuns: 50 },
    );
  });
});
