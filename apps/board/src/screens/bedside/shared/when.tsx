import type { EpochMs } from '@slackwater/domain';
import { MINUTE_MS } from '@slackwater/domain/time/instant';
import { useState } from 'react';
import { serverClock } from '../../../api/clock.ts';
import { useMinute } from '../../../live/now.ts';
import { Choice } from '../../../ui/choice.tsx';
import { useBedside } from '../bedside-context.ts';
import { agoChoices } from '../model/ago.ts';
import { amended } from '../model/amended.ts';
import { act } from '../model/batch.ts';
import styles from './when.module.css';

/** When the next touch happened: now, or some minutes ago. `at()` is asked at the touch itself. */
export const useAgo = (
  notBefore: EpochMs | null,
): { minutes: number; set: (minutes: number) => void; at: () => EpochMs } => {
  const [minutes, set] = useState(0);
  const at = () => {
    const told = serverClock.now() - minutes * MINUTE_MS;
    return notBefore !== null && told < notBefore ? notBefore : told;
  };
  return { minutes, set, at };
};

/** Says "now" or "2, 5, 10 min ago" of the touch that comes next. */
export const Ago = ({
  label,
  ago,
  notBefore,
}: {
  label: string;
  ago: ReturnType<typeof useAgo>;
  notBefore: EpochMs | null;
}) => {
  const { clock } = useBedside();
  const now = useMinute();
  const choices = agoChoices(now, notBefore);
  if (choices.length < 2) return null;
  return (
    <div className={styles.when}>
      <Choice
        label={label}
        value={ago.minutes}
        onChange={ago.set}
        options={choices.map((minutes) => ({
          value: minutes,
          label: minutes === 0 ? 'now' : `${minutes} min ago`,
          detail: clock(now - minutes * MINUTE_MS),
        }))}
      />
    </div>
  );
};

/**
 * Moves the start of what runs: "at the touch" or some minutes before it. The first touch stays readable in the
 * record; the correction stands beside it.
 *
 * @param entryIds the steps that happened at that touch, in their order; the last one is the one that runs
 */
export const Started = ({
  label,
  entryIds,
  notBefore,
}: {
  label: string;
  entryIds: readonly string[];
  notBefore: EpochMs | null;
}) => {
  const { clock, entries, record } = useBedside();
  const originals = entryIds
    .map((id) => entries.find((entry) => entry.id === id))
    .filter((entry) => entry !== undefined);
  const last = originals.at(-1);
  if (!last) return null;
  const stands = amended(last, entries).happenedAt;
  const choices = agoChoices(last.happenedAt, notBefore);
  if (choices.length < 2) return null;
  const move = (minutes: number) => {
    const now = serverClock.now();
    void record(
      originals.map((entry) =>
        act(
          'corrected',
          {
            target: amended(entry, entries).lastId,
            reason: minutes === 0 ? 'at the touch after all' : `started ${minutes} min before the touch`,
            payload: entry.payload as Readonly<Record<string, unknown>>,
            happenedAt: last.happenedAt - minutes * MINUTE_MS,
          },
          now,
        ),
      ),
    );
  };
  return (
    <div className={styles.when}>
      <Choice
        label={label}
        value={Math.round((last.happenedAt - stands) / MINUTE_MS)}
        onChange={move}
        options={choices.map((minutes) => ({
          value: minutes,
          label: minutes === 0 ? 'at the touch' : `${minutes} min before`,
          detail: clock(last.happenedAt - minutes * MINUTE_MS),
        }))}
      />
    </div>
  );
};
