import type { Dwell } from '@slackwater/domain';
import { balanceWords } from '@slackwater/domain/balance/words';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { dateAt } from '@slackwater/domain/time/zone';
import { formatDate, formatMl, formatWhole } from '@slackwater/domain/words/numbers';
import { useMinute } from '../../../live/now.ts';
import { useBedside } from '../bedside-context.ts';
import { wardDayNow } from '../model/ward-day.ts';
import styles from './five-dwells.module.css';

/** The zero of a bar stands here; a litre removed fills the rest. */
const ZERO_PERCENT = 24;
const PERCENT_PER_ML = 0.076;

/** The last five dwells, newest first: drained, strength, in, out, and the balance as a word with its bar. */
export const FiveDwells = () => {
  const { state, policy, ward, clock } = useBedside();
  const now = useMinute();
  const today = dateAt(now, ward.zone);
  const day = wardDayNow(state, policy, now);
  // The dwell under way is none of the five before its drain was read: an open one is not an incomplete one.
  const open = state.openDwell;
  const read = open !== null && open.drainedMl !== null && open.drains.every((drain) => drain.endedAt !== null);
  const dwells = read ? [open, ...state.lastDwells].slice(0, 5) : state.lastDwells;
  const when = (dwell: Dwell) => {
    const at = dwell.drainedAt ?? dwell.drains[0]?.startedAt ?? null;
    if (at === null) return 'open';
    const onDay = dateAt(at, ward.zone) === today ? 'today' : formatDate(at, ward.zone).slice(0, 6);
    return (
      <>
        <span className="mono">{clock(at)}</span> {onDay}
      </>
    );
  };
  return (
    <section>
      <h2>
        <b>Last five dwells, mL</b>
      </h2>
      {dwells.length === 0 ? (
        <p className="quiet">None has been drained in this stay.</p>
      ) : (
        <>
          <table className={styles.table}>
            <thead>
              <tr>
                <th scope="col">Drained</th>
                <th scope="col">Bag</th>
                <th scope="col" className={styles.number}>
                  In
                </th>
                <th scope="col" className={styles.number}>
                  Out
                </th>
              </tr>
            </thead>
            {dwells.map((dwell) => (
              <tbody key={dwell.id}>
                <tr>
                  <td>{when(dwell)}</td>
                  <td>{solutionOf(policy.formulary, dwell.fills.at(-1)?.solutionId ?? null)?.strength ?? '–'}</td>
                  <td className={styles.number}>
                    {dwell.filledMl === null ? 'not known' : formatWhole(dwell.filledMl)}
                  </td>
                  <td className={styles.number}>
                    {dwell.drainedMl === null ? 'no volume' : formatWhole(dwell.drainedMl)}
                  </td>
                </tr>
                <tr className={styles.second}>
                  <td colSpan={4}>
                    <BalanceBar dwell={dwell} />
                  </td>
                </tr>
              </tbody>
            ))}
          </table>
          <p className={styles.key}>
            <i />
            expected, ward’s table for adults
          </p>
        </>
      )}
      <p className={styles.day}>
        Ward day from {clock(day.from)}
        <b>{balanceWords(day, ward.zone)}</b>
      </p>
    </section>
  );
};

const BalanceBar = ({ dwell }: { dwell: Dwell }) => {
  const removed = dwell.drainMinusFillMl;
  if (removed === null)
    return (
      <span className={styles.said}>
        <span className={styles.missing}>Incomplete</span>
      </span>
    );
  const width = Math.min(Math.abs(removed) * PERCENT_PER_ML, removed < 0 ? ZERO_PERCENT : 100 - ZERO_PERCENT);
  return (
    <span className={styles.said}>
      {removed < 0 ? <b>Retained</b> : <i className={styles.word}>Removed</i>}
      <span>{formatMl(removed)}</span>
      <span className={styles.bar} aria-hidden="true">
        <i
          className={removed < 0 ? styles.retained : styles.removed}
          style={{ left: `${removed < 0 ? ZERO_PERCENT - width : ZERO_PERCENT}%`, width: `${width}%` }}
        />
        {dwell.expectedUfMl !== null && (
          <i
            className={styles.expected}
            style={{ left: `${Math.min(100, Math.max(0, ZERO_PERCENT + dwell.expectedUfMl * PERCENT_PER_ML))}%` }}
          />
        )}
      </span>
    </span>
  );
};
