import { fold } from '../bedside/fold.ts';
import type { BedsideState } from '../bedside/state.ts';
import { undrainedMl } from '../cavity/guard.ts';
import { isStep } from '../exchange/steps.ts';
import type { Draft, Entry, EntryKind, Payloads } from '../record/entry.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { LONDON } from './bedside.ts';
import { NO_LIMITS } from './no-limits.ts';

export const PATIENT = 'patient';
export const START_AT = Date.parse('2026-11-25T08:00:00Z');

/** The instant so many minutes into a test's course. */
export const minute = (minutes: number): number => START_AT + minutes * 60_000;

type Over = Partial<Pick<Entry, 'id' | 'visitId' | 'after' | 'author' | 'wardId' | 'position'>>;

/** Writes a patient's entries one after another, as the record would keep them: for tests. */
export class Course {
  readonly entries: Entry[] = [];
  readonly policy: WardPolicy;
  private visitId: string | null = null;
  private head: string | null = null;

  constructor(policy: WardPolicy = LONDON) {
    this.policy = policy;
  }

  /** One entry at a minute of the course; a step follows the last one, an observation speaks of the last visit. */
  write<K extends EntryKind>(kind: K, payload: Payloads[K], minutes: number, over: Over = {}): Entry {
    const position = this.entries.length + 1;
    if (kind === 'prepare') this.visitId = `visit-${position}`;
    const draft = {
      id: `entry-${String(position).padStart(4, '0')}`,
      kind,
      format: 1,
      payload,
      patientId: PATIENT,
      visitId: this.visitId,
      happenedAt: minute(minutes),
      after: isStep(kind) ? this.head : null,
    } as unknown as Draft;
    const entry = {
      ...draft,
      siteId: 'alder-point',
      wardId: 'kestrel',
      deviceAt: null,
      receivedAt: minute(minutes),
      author: 'nurse',
      position,
      ...over,
    } as Entry;
    if (isStep(kind)) this.head = entry.id;
    this.entries.push(entry);
    return entry;
  }

  state(): BedsideState {
    return fold(PATIENT, this.entries, this.policy).state;
  }

  /** Admitted with an empty cavity and four exchanges of 2.27 % a day, 4 h each. */
  admit(minutes: number, inside: Payloads['admitted']['inside'] = { cavity: 'empty' }): this {
    this.write('admitted', { bed: '7', inside, dialysis: 'chronic' }, minutes);
    this.prescribe(minutes);
    return this;
  }

  prescribe(minutes: number, limits: Partial<Payloads['prescribed']['limits']> = {}): Entry {
    return this.write(
      'prescribed',
      {
        items: [
          {
            id: 'item',
            solutionId: 'glucose-2.27',
            fillMl: 2000,
            additives: [],
            dwell: { by: 'length', dwellMinutes: 240 },
            windowMinutes: 0,
            condition: null,
          },
        ],
        limits: { ...NO_LIMITS, ...limits },
        acute: false,
        note: null,
        reviewBy: null,
      },
      minutes,
    );
  }

  prepare(minutes: number, change: Partial<Payloads['prepare']> = {}): Entry {
    return this.write('prepare', { ...preparePayload(this.state()), ...change }, minutes);
  }

  startFill(minutes: number, change: Partial<Payloads['startFill']> = {}): Entry {
    return this.write('startFill', { ...fillPayload(this.state()), ...change }, minutes);
  }

  drain(from: number, to: number, drainedMl: number | null, flow: 'stopped' | 'notStopped' = 'stopped'): this {
    this.write('startDrain', {}, from);
    this.write('endDrain', { flow }, to);
    if (drainedMl !== null) this.measure(to, this.drains(), 'reading', drainedMl);
    return this;
  }

  measure(minutes: number, drain: number, role: 'reading' | 'exact', volumeMl: number, over: Over = {}): Entry {
    const measure = { drain, role, method: 'jug', flushIncluded: false, flushMl: 0, volumeMl } as const;
    return this.write('measure', measure, minutes, over);
  }

  fill(from: number, to: number, filledMl: number): this {
    this.startFill(from);
    this.write('endFill', { infused: { basis: 'stated', volumeMl: filledMl } }, to);
    return this;
  }

  /** A whole exchange that begins at a minute and takes half an hour. */
  exchange(minutes: number, drainedMl: number | null, filledMl: number): this {
    this.prepare(minutes);
    this.write('connect', {}, minutes + 3);
    this.drain(minutes + 5, minutes + 18, drainedMl);
    this.fill(minutes + 20, minutes + 28, filledMl);
    this.write('close', { leftEmpty: false }, minutes + 30);
    return this;
  }

  /** Fill only, as the first of a stay. */
  firstFill(minutes: number, filledMl: number): this {
    this.prepare(minutes, { purpose: 'fillOnly' });
    this.write('connect', {}, minutes + 3);
    this.fill(minutes + 5, minutes + 13, filledMl);
    this.write('close', { leftEmpty: false }, minutes + 15);
    return this;
  }

  /** Drain only, without closing. */
  drainOnly(minutes: number, drainedMl: number | null, flow: 'stopped' | 'notStopped' = 'stopped'): this {
    this.prepare(minutes, { purpose: 'drainOnly', bag: null, bagChecks: null });
    this.write('connect', {}, minutes + 3);
    this.drain(minutes + 5, minutes + 18, drainedMl, flow);
    return this;
  }

  private drains(): number {
    return this.entries.filter((entry) => entry.kind === 'startDrain' && entry.visitId === this.visitId).length;
  }
}

const BAG = {
  solutionId: 'glucose-2.27',
  labelledMl: 2000,
  expiresOn: '2027-06-30',
  lot: null,
  read: 'typed',
} as const;

const namedBy = (state: BedsideState) => ({
  revisionId: state.prescription?.id ?? null,
  itemId: state.prescription?.items[0]?.id ?? null,
  orderId: null,
});

export const preparePayload = (state: BedsideState): Payloads['prepare'] => ({
  purpose: 'exchange',
  identifiers: ['name', 'dateOfBirth'],
  bag: BAG,
  ...namedBy(state),
  bagChecks: { noLeak: true, clear: true, warmed: true, sealWhole: true, mixed: null },
  override: null,
});

export const fillPayload = (state: BedsideState): Payloads['startFill'] => ({
  bag: BAG,
  ...namedBy(state),
  prescribedMl: Math.max(1, 2000 - (undrainedMl(state) ?? 0)),
  additives: [],
  flushMl: 100,
  sealBroken: true,
  noLeak: true,
  guardOverride: null,
});
