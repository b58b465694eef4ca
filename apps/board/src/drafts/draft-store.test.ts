import { describe, expect, it } from 'vitest';
import { createDraftStore } from './draft-store.ts';

const memory = () => {
  const kept = new Map<string, string>();
  return {
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, value: string) => void kept.set(name, value),
    removeItem: (name: string) => void kept.delete(name),
  };
};

describe('typed input', () => {
  it('is there again after a reload, for the same person', () => {
    const storage = memory();
    createDraftStore(storage, () => 0).write('lindahl', 'reading', { gross: '1948' });
    expect(createDraftStore(storage, () => 60_000).read('lindahl', 'reading')).toEqual({ gross: '1948' });
  });

  it('is not shown to anybody else', () => {
    const store = createDraftStore(memory(), () => 0);
    store.write('lindahl', 'reading', '1948');
    expect(store.read('okoro', 'reading')).toBeUndefined();
  });

  it('is gone once it is recorded, and after a day', () => {
    let time = 0;
    const store = createDraftStore(memory(), () => time);
    store.write('lindahl', 'reading', '1948');
    store.write('lindahl', 'note', 'felt cold');
    store.clear('lindahl', 'reading');
    expect(store.read('lindahl', 'reading')).toBeUndefined();
    expect(store.read('lindahl', 'note')).toBe('felt cold');
    time = 24 * 60 * 60_000 + 1;
    expect(store.read('lindahl', 'note')).toBeUndefined();
  });

  it('is lost, not the screen, where the browser forbids or garbles storage', () => {
    const refusing = {
      getItem: () => 'not json',
      setItem: () => {
        throw new DOMException('full', 'QuotaExceededError');
      },
      removeItem: () => undefined,
    };
    const store = createDraftStore(refusing, () => 0);
    store.write('lindahl', 'reading', '1948');
    expect(store.read('lindahl', 'reading')).toBeUndefined();
  });
});
