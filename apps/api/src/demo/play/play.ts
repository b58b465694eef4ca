import { randomUUIDv7 } from 'node:crypto';
import type { BedsideView, BoardSnapshot, WardView } from '@slackwater/contract';
import { type BoardRow, type Draft, MINUTE_MS, rowAt, type WardPolicy } from '@slackwater/domain';
import { chance } from '../chance.ts';
import { type Client, Refused } from './client.ts';
import { type Act, nextAct } from './next-act.ts';

export type PlayOptions = {
  wardId: string;
  /** How many times faster than at a real bed a visit goes. Dwells keep their own time. */
  speed: number;
  /** The nurses, by account id. */
  nurses: ReadonlyMap<string, Client>;
  /** Reads the board. */
  reader: Client;
  say: (text: string) => void;
  stopped: () => boolean;
};

const LOOK_EVERY_MS = 1000;
/** What was refused would be refused again at once: somebody else may act first. */
const AFTER_REFUSAL_MS = 30_000;

/** Simulated nurses work the ward against the public API until stopped. */
export async function play(options: PlayOptions): Promise<void> {
  const { reader, wardId, stopped } = options;
  const ward = await reader.get<WardView>(`/api/wards/${wardId}`);
  const random = chance(Date.now());
  const waiting = new Map<string, { act: string; doneAt: number }>();
  while (!stopped()) {
    const board = await reader.get<BoardSnapshot>(`/api/wards/${wardId}/board`);
    for (const row of board.rows) {
      if (stopped()) return;
      await attend(row, options, ward.policy, random, waiting);
    }
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS / Math.min(4, options.speed)));
  }
}

async function attend(
  row: BoardRow,
  options: PlayOptions,
  policy: WardPolicy,
  random: ReturnType<typeof chance>,
  waiting: Map<string, { act: string; doneAt: number }>,
): Promise<void> {
  const nurse = row.nurse ? options.nurses.get(row.nurse.accountId) : undefined;
  if (!nurse) return;
  const now = Date.now();
  if (!row.visit && rowAt(row, now).group !== 'now' && !waiting.has(row.patient.id)) return;
  const pause = waiting.get(row.patient.id);
  if (pause && pause.act === `${row.version}` && pause.doneAt > now) return;

  const view = await nurse.get<BedsideView>(`/api/patients/${row.patient.id}/bedside`);
  const act = nextAct({ state: view.state, policy, now: Date.now(), random });
  if (!act) {
    waiting.delete(row.patient.id);
    return;
  }
  if (pause?.act !== `${row.version}`) {
    waiting.set(row.patient.id, {
      act: `${row.version}`,
      doneAt: now + (act.afterMinutes * MINUTE_MS) / options.speed,
    });
    return;
  }
  const isWritten = await write(nurse, row, act, options);
  if (!isWritten) waiting.set(row.patient.id, { act: `${row.version}`, doneAt: Date.now() + AFTER_REFUSAL_MS });
  await acknowledge(nurse, row, options);
}

/** Whether the record took it. */
async function write(nurse: Client, row: BoardRow, act: Act, { wardId, say }: PlayOptions): Promise<boolean> {
  const body = { wardId, deviceAt: Date.now(), entries: act.drafts };
  try {
    await nurse.post('/api/entries', body);
    say(`Bed ${row.bed}: ${act.drafts.map((draft) => draft.kind).join(', ')}`);
    return true;
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    say(
      `Bed ${row.bed}: ${act.drafts.map((draft) => draft.kind).join(', ')}: not written (${error.code}): ${error.message}`,
    );
    return false;
  }
}

/** Whoever is at the bed takes its alerts. */
async function acknowledge(nurse: Client, row: BoardRow, { wardId }: PlayOptions): Promise<void> {
  const now = Date.now();
  const unowned = row.alerts.filter((alert) => alert.owner === null);
  if (unowned.length === 0) return;
  const entries = unowned.map(
    (alert): Draft => ({
      id: randomUUIDv7(),
      kind: 'alertAcknowledged',
      format: 1,
      payload: { alertId: alert.id, until: now + 20 * MINUTE_MS },
      patientId: row.patient.id,
      visitId: null,
      happenedAt: now,
      after: null,
    }),
  );
  await nurse.post('/api/entries', { wardId, deviceAt: now, entries }).catch((error: unknown) => {
    if (!(error instanceof Refused)) throw error;
  });
}
