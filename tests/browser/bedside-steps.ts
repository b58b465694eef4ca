import { randomUUID } from 'node:crypto';
import type { BedsideView } from '@slackwater/contract';
import { type Appearance, bagFor, type Draft, MINUTE_MS, STEPS, type Step } from '@slackwater/domain';
import type { Page } from 'playwright-core';
import { type BedsideWard, draft } from './bedside-ward.ts';

/** How far a colleague carries the exchange before the test looks. */
export type UpTo = 'preparing' | 'connected' | 'draining' | 'drained' | 'read' | 'filling' | 'closing' | 'closed';

type Options = {
  as?: string;
  /** Minutes ago of each step's start: prepared 60, drain 50 to 35, fill 30 to 20 by default. */
  minutesAgo?: Partial<Record<'prepare' | 'startDrain' | 'endDrain' | 'startFill' | 'endFill' | 'close', number>>;
  readingMl?: number;
  appearance?: readonly Appearance[];
  purpose?: 'exchange' | 'drainOnly';
};

const ORDER: readonly UpTo[] = [
  'preparing',
  'connected',
  'draining',
  'drained',
  'read',
  'filling',
  'closing',
  'closed',
];

/** Records the first steps of an exchange through the API, as a colleague at another tablet would. */
export async function carryTo(ward: BedsideWard, patientId: string, upTo: UpTo, options: Options = {}): Promise<void> {
  const person = await ward.as(options.as ?? 'lindahl');
  const [{ state }, { policy }] = await Promise.all([
    person.get<BedsideView>(`/api/patients/${patientId}/bedside`),
    person.get<{ policy: Parameters<typeof bagFor>[1] }>('/api/wards/kestrel'),
  ]);
  const wanted = bagFor(state, policy);
  const bag = wanted && {
    solutionId: wanted.solutionId,
    labelledMl: wanted.fillMl,
    expiresOn: null,
    lot: null,
    read: 'typed' as const,
  };
  const ago = {
    prepare: 60,
    startDrain: 50,
    endDrain: 35,
    startFill: 30,
    endFill: 20,
    close: 18,
    ...options.minutesAgo,
  };
  const now = Date.now();
  const at = (minutes: number) => now - minutes * MINUTE_MS;
  const visitId = randomUUID();
  const purpose = options.purpose ?? 'exchange';
  const named = { revisionId: wanted?.revisionId ?? null, itemId: wanted?.itemId ?? null, orderId: null };
  const about = (happenedAt: number) => ({ patientId, visitId, happenedAt });
  const comfort = { pain: 0, phase: null, cramp: false, breathless: false, leakAtExit: false, swelling: false };

  const parts: Record<UpTo, readonly Draft[]> = {
    preparing: [
      draft(
        'prepare',
        {
          purpose,
          identifiers: ['name', 'dateOfBirth'],
          bag: purpose === 'exchange' ? bag : null,
          ...(purpose === 'exchange' ? named : { revisionId: null, itemId: null, orderId: null }),
          bagChecks:
            purpose === 'exchange' ? { noLeak: true, clear: true, warmed: true, sealWhole: true, mixed: null } : null,
          override: null,
        },
        about(at(ago.prepare)),
      ),
    ],
    connected: [draft('connect', {}, about(at(ago.startDrain)))],
    draining: [draft('startDrain', {}, about(at(ago.startDrain)))],
    drained: [
      draft(
        'appearance',
        { drain: 1, appearance: options.appearance ?? ['clear'], note: null },
        about(at(ago.endDrain)),
      ),
      draft('comfort', { phase: 'drain', comfort }, about(at(ago.endDrain))),
      draft('endDrain', { flow: 'stopped' }, about(at(ago.endDrain))),
    ],
    read: [
      draft(
        'measure',
        {
          drain: 1,
          role: 'reading',
          method: 'bagMarks',
          volumeMl: options.readingMl ?? 2050,
          flushIncluded: false,
          flushMl: 0,
        },
        about(at(ago.endDrain)),
      ),
    ],
    filling: bag
      ? [
          draft(
            'startFill',
            {
              bag,
              ...named,
              prescribedMl: bag.labelledMl,
              additives: [],
              flushMl: 100,
              sealBroken: true,
              noLeak: true,
              guardOverride: null,
            },
            about(at(ago.startFill)),
          ),
        ]
      : [],
    closing: bag
      ? [draft('endFill', { infused: { basis: 'wholeBag', labelledMl: bag.labelledMl } }, about(at(ago.endFill)))]
      : [],
    closed: [draft('close', { leftEmpty: false }, about(at(ago.close)))],
  };
  const entries = ORDER.slice(0, ORDER.indexOf(upTo) + 1).flatMap((part) => parts[part]);
  await person.record(...chained(entries, state.head));
}

/** Steps name the one before them; observations name none. */
export const chained = (entries: readonly Draft[], head: string | null): Draft[] => {
  let after = head;
  return entries.map((entry) => {
    if (!STEPS.includes(entry.kind as Step)) return entry;
    const next = { ...entry, after } as Draft;
    after = entry.id;
    return next;
  });
};

/** The first second of a still screen is deaf: whoever comes from the screen before waits for it. */
export async function touchPool(page: Page, word: string): Promise<void> {
  const pool = page.getByRole('button', { name: new RegExp(`^${word}`) });
  await pool.waitFor();
  await page.waitForTimeout(1100);
  await pool.click();
}

/** What the record holds of a patient. */
export const bedsideOf = async (ward: BedsideWard, patientId: string): Promise<BedsideView> =>
  (await ward.as('lindahl')).get<BedsideView>(`/api/patients/${patientId}/bedside`);
