import type { BoardRow } from '@slackwater/domain';
import { additivesInsideWords } from '@slackwater/domain/dwell/additives-inside';
import { stayEmptyWords } from '@slackwater/domain/prescription/stay-empty';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { formatClock, formatMl, formatWhole } from '@slackwater/domain/words/numbers';
import { filledMl, insideWords } from './inside-words.ts';
import styles from './row.module.css';

/** A longer strength takes the second line: it is never cut. */
const SHORT_STRENGTH = 8;

/** What is inside: volume and strength, and since when or what it does; the estimate where fluid was just drained. */
export const Inside = ({ row, zone }: { row: BoardRow; zone: string }) => {
  const clock = (at: EpochMs) => formatClock(at, zone);
  const { first, second, strength, decides } = insideWords(row, {
    ml: formatMl,
    whole: formatWhole,
    clock,
  });
  const added = additivesInsideWords(row.cavity, clock);
  const isLong = strength !== null && strength.length > SHORT_STRENGTH;
  return (
    <>
      <span className={styles.insideFirst}>
        {decides ? <b>{first}</b> : first}{' '}
        {strength && <span className={isLong ? styles.longStrength : undefined}>{strength}</span>}
      </span>
      {second && !isLong && (
        <span className={filledMl(row) !== null && !row.visit ? styles.dwelling : styles.insideSecond}>{second}</span>
      )}
      {added && <span className={styles.added}>{added}</span>}
      {row.stayEmpty && (
        <span className={styles.added}>
          <b>{stayEmptyWords(row.stayEmpty, row.cavity, clock)}</b>
        </span>
      )}
      {row.fluidHandover && (
        <span className={styles.added}>
          handed over {clock(row.fluidHandover.at)} to {row.fluidHandover.toWhom}
        </span>
      )}
      {row.waitsForSecondPersonSince !== null && (
        <span className={styles.added}>
          <b>waits for a second person since {clock(row.waitsForSecondPersonSince)}</b>
        </span>
      )}
    </>
  );
};
