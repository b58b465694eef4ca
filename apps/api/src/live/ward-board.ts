import {
  type BedsideState,
  FOLD_VERSION,
  fold,
  likeNames,
  type PatientIdentity,
  type WardPolicy,
} from '@slackwater/domain';
import type { Pool } from 'pg';
import { noSuchWard } from '../problems.ts';
import type { Policies } from '../record/policies.ts';
import { readHistory } from '../record/standing.ts';
import { READ_BOARD, READ_CHANGED, READ_GONE } from './board.sql.ts';
import { PROJECTIONS, type Projection, type RowTexts, rowTexts } from './projection.ts';

/** What changed after `from`, as texts that are sent as they are. */
export type DeltaTexts = { from: number; to: number; text: Readonly<Record<Projection, string>> };

type Head = { position: number; settingsVersion: number; formularyVersion: number; epoch: string };
type Read = Head &
  (
    | {
        patientId: string;
        here: boolean;
        patient: PatientIdentity;
        version: number;
        state: BedsideState | null;
        foldVersion: number;
      }
    | { patientId: null }
  );

type BoardedRow = {
  patient: PatientIdentity;
  state: BedsideState;
  version: number;
  likeNameBeds: readonly string[];
  texts: RowTexts;
  /** The position at which its texts last changed, as far as this process knows. */
  changedAt: number;
};

/**
 * One ward's board as this process holds it: rows serialised once, at one position. It reads what changed and nothing
 * else; the whole ward again when its settings, the formulary or the epoch changed.
 */
export class WardBoard {
  readonly wardId: string;
  readonly #siteId: string;
  readonly #pool: Pool;
  readonly #policies: Policies;
  #rows = new Map<string, BoardedRow>();
  #gone = new Map<string, number>();
  /** By patient, the beds of those whose names may be mistaken for theirs. */
  #likeNameBeds: ReadonlyMap<string, readonly string[]> = new Map();
  #head: Head | null = null;
  /** The position since which this process knows what changed. */
  #knownSince = 0;
  #reading: Promise<unknown> = Promise.resolve();

  constructor(of: { siteId: string; wardId: string; pool: Pool; policies: Policies }) {
    this.wardId = of.wardId;
    this.#siteId = of.siteId;
    this.#pool = of.pool;
    this.#policies = of.policies;
  }

  /** null before the first read. */
  get position(): number | null {
    return this.#head?.position ?? null;
  }

  get epoch(): string | null {
    return this.#head?.epoch ?? null;
  }

  /**
   * Reads what changed. Reads queue, so that deltas join one another without a gap.
   * @returns the change; null where there was none, or the board was read for the first time or in a new epoch.
   */
  refresh(): Promise<DeltaTexts | null> {
    const reading = this.#reading.then(() => this.#refresh());
    this.#reading = reading.catch(() => {});
    return reading;
  }

  async #refresh(): Promise<DeltaTexts | null> {
    const before = this.#head;
    if (before === null) {
      await this.#readAll();
      return null;
    }
    const { rows } = await this.#pool.query<Read>({
      ...READ_CHANGED,
      values: [this.#siteId, this.wardId, before.position],
    });
    const head = headOf(rows);
    if (head.epoch !== before.epoch) {
      await this.#readAll();
      return null;
    }
    const policy = await this.#policy(head);
    const isSamePolicy =
      head.settingsVersion === before.settingsVersion && head.formularyVersion === before.formularyVersion;
    if (head.position === before.position && isSamePolicy) return null;
    const changed = isSamePolicy ? rows : [...rows, ...(await this.#read())];
    this.#take(await this.#underPolicy(changed, policy), head, policy, !isSamePolicy);
    this.#head = head;
    return head.position === before.position ? null : this.#delta(before.position);
  }

  async #readAll(): Promise<void> {
    const rows = await this.#read();
    const head = headOf(rows);
    const policy = await this.#policy(head);
    const current = await this.#underPolicy(rows, policy);
    this.#rows.clear();
    this.#gone.clear();
    this.#knownSince = head.position;
    this.#take(current, head, policy, true);
    this.#head = head;
  }

  /** Everybody on the ward. */
  async #read(): Promise<Read[]> {
    return (await this.#pool.query<Read>({ ...READ_BOARD, values: [this.#siteId, this.wardId] })).rows;
  }

  #policy(head: Head): Promise<WardPolicy> {
    return this.#policies.of(this.#pool, this.#siteId, this.wardId, head);
  }

  #take(rows: readonly Read[], head: Head, policy: WardPolicy, isAllNew: boolean): void {
    const touched = new Set<string>();
    // names are laid beside each other again only when somebody came, went, moved or was renamed
    let isSameWard = !isAllNew;
    for (const read of rows) {
      if (read.patientId === null) continue;
      if (!read.here || read.state === null) {
        if (this.#rows.delete(read.patientId)) {
          this.#gone.set(read.patientId, head.position);
          isSameWard = false;
        }
        continue;
      }
      const { patient, version, state } = read;
      const known = this.#rows.get(read.patientId);
      isSameWard &&= known !== undefined && hasSameNameAndBed(known, { patient, state });
      this.#gone.delete(read.patientId);
      this.#rows.set(read.patientId, {
        patient,
        state,
        version,
        likeNameBeds: known?.likeNameBeds ?? [],
        texts: known?.texts ?? { staff: '', wall: '' },
        changedAt: known?.changedAt ?? head.position,
      });
      touched.add(read.patientId);
    }
    if (!isSameWard) this.#likeNameBeds = this.#readLikeNames();
    for (const [patientId, row] of this.#rows) {
      const likeNameBeds = this.#likeNameBeds.get(patientId) ?? [];
      const isLikeChanged = likeNameBeds.join() !== row.likeNameBeds.join();
      if (!isAllNew && !touched.has(patientId) && !isLikeChanged) continue;
      const texts = rowTexts(row.state, row.patient, policy, { version: row.version, likeNameBeds });
      const isChanged = PROJECTIONS.some((projection) => texts[projection] !== row.texts[projection]);
      this.#rows.set(patientId, {
        ...row,
        likeNameBeds,
        texts,
        // boards take all rows at once for the sign that the ward's policy is another
        changedAt: isChanged || isAllNew ? head.position : row.changedAt,
      });
    }
  }

  /** New settings show at once: the alarms bring what is stored up to date a moment later, at no position. */
  async #underPolicy(rows: readonly Read[], policy: WardPolicy): Promise<readonly Read[]> {
    const current: Read[] = [];
    for (const read of rows) {
      if (read.patientId === null || !read.here || read.state === null || read.foldVersion === FOLD_VERSION) {
        current.push(read);
        continue;
      }
      const history = await readHistory(this.#pool, this.#siteId, read.patientId);
      current.push({ ...read, state: fold(read.patientId, history, policy).state });
    }
    return current;
  }

  #readLikeNames(): ReadonlyMap<string, readonly string[]> {
    const bedOf = (patientId: string) => this.#rows.get(patientId)?.state.stay?.bed ?? '';
    const like = likeNames([...this.#rows.values()].map((row) => row.patient));
    return new Map([...like].map(([patientId, others]) => [patientId, others.map(bedOf).sort()]));
  }

  #delta(from: number): DeltaTexts {
    const to = this.#head!.position;
    const rows = [...this.#rows.values()].filter((row) => row.changedAt > from);
    const gone = [...this.#gone].filter(([, at]) => at > from).map(([patientId]) => patientId);
    return { from, to, text: this.#texts((projection) => this.#deltaText(from, to, rows, gone, projection)) };
  }

  #texts(of: (projection: Projection) => string): Readonly<Record<Projection, string>> {
    return { staff: of('staff'), wall: of('wall') };
  }

  #deltaText(
    from: number,
    to: number,
    rows: readonly BoardedRow[],
    gone: readonly string[],
    projection: Projection,
  ): string {
    const head = `{"epoch":${JSON.stringify(this.epoch)},"from":${from},"to":${to}`;
    return `${head},"rows":[${joined(rows, projection)}],"gone":${JSON.stringify(gone)}}`;
  }

  /** The whole board. */
  snapshotText(projection: Projection): string {
    const head = `{"epoch":${JSON.stringify(this.epoch)},"wardId":${JSON.stringify(this.wardId)}`;
    return `${head},"position":${this.position},"rows":[${joined([...this.#rows.values()], projection)}]}`;
  }

  /** What changed after a position up to `to`; for a position that this process did not see, everybody. */
  async since(since: number, projection: Projection): Promise<{ to: number; text: string }> {
    const to = this.#head!.position;
    if (since >= this.#knownSince) return { to, text: this.#delta(since).text[projection] };
    const { rows } = await this.#pool.query<{ patientId: string }>({
      ...READ_GONE,
      values: [this.#siteId, this.wardId, since],
    });
    const gone = rows.map((row) => row.patientId).filter((patientId) => !this.#rows.has(patientId));
    return { to, text: this.#deltaText(since, to, [...this.#rows.values()], gone, projection) };
  }
}

type NamedInBed = Pick<BoardedRow, 'patient' | 'state'>;

const hasSameNameAndBed = (one: NamedInBed, other: NamedInBed): boolean =>
  one.patient.family === other.patient.family &&
  one.patient.given === other.patient.given &&
  one.state.stay?.bed === other.state.stay?.bed;

const joined = (rows: readonly BoardedRow[], projection: Projection) =>
  rows.map((row) => row.texts[projection]).join(',');

function headOf(rows: readonly Read[]): Head {
  const [first] = rows;
  if (first === undefined) throw noSuchWard();
  const { position, settingsVersion, formularyVersion, epoch } = first;
  return { position, settingsVersion, formularyVersion, epoch };
}
