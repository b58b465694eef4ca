import type { EpochMs } from '@slackwater/domain/time/instant';
import { rowAt } from '@slackwater/domain/ward/row-at';
import { formatClock, formatMinutes } from '@slackwater/domain/words/numbers';
import type { ReactNode } from 'react';
import { asTheClockSays, useMinute } from '../../../live/now.ts';
import { cx } from '../../../ui/class-names.ts';
import { Mark } from '../../../ui/mark.tsx';
import type { Placed } from '../moment.ts';
import type { Order } from '../order.ts';
import styles from './answers.module.css';

type AnswersProps = { order: Order; names: ReadonlyMap<string, string>; zone: string; frozenAt: EpochMs | null };

/** Who needs somebody now, who is next and when, who is in trouble and who has it. */
export const Answers = ({ order, names, zone, frozenAt }: AnswersProps) => (
  <div className={styles.answers}>
    <Answer to="Now">
      <NowAnswer list={order.now} zone={zone} frozenAt={frozenAt} />
    </Answer>
    <Answer to="Next">
      <NextAnswer list={[...order.withinTheHour, ...order.later]} zone={zone} frozenAt={frozenAt} />
    </Answer>
    <Answer to="In trouble" whole>
      <TroubleAnswer list={order.now} names={names} stale={frozenAt !== null} />
    </Answer>
  </div>
);

type AnswerProps = {
  to: string;
  /** It may take a second line, so that none of it is cut. */
  whole?: boolean;
  children: ReactNode;
};

const Answer = ({ to, whole, children }: AnswerProps) => (
  <p className={styles.answer}>
    <span className={styles.to}>{to}</span>
    <span className={cx(styles.words, whole && styles.whole)}>{children}</span>
  </p>
);

const beds = (count: number): string => (count === 1 ? '1 bed' : `${count} beds`);

const isOver = ({ moment }: Placed): boolean => moment.word === 'overdue' || moment.word === 'pastDue';

const NowAnswer = ({ list, zone, frozenAt }: { list: readonly Placed[]; zone: string; frozenAt: EpochMs | null }) => {
  const now = asTheClockSays(useMinute());
  if (list.length === 0) return <span className={styles.none}>nobody</span>;
  const over = list.filter(isOver).toSorted((a, b) => (a.moment.at ?? 0) - (b.moment.at ?? 0))[0];
  if (frozenAt !== null) {
    return (
      <>
        {beds(list.length)} at {formatClock(frozenAt, zone)}.{' '}
        {over?.moment.at && `Bed ${over.row.bed} was due ${formatClock(over.moment.at, zone)}`}
      </>
    );
  }
  return (
    <>
      <b>{beds(list.length)}.</b>{' '}
      {over && (
        <>
          <span className={styles.wide}>Longest over: </span>
          <b>Bed {over.row.bed}</b>, <span className="nb">{formatMinutes(rowAt(over.row, now).minutes ?? 0)}</span>
        </>
      )}
    </>
  );
};

const NextAnswer = ({ list, zone, frozenAt }: { list: readonly Placed[]; zone: string; frozenAt: EpochMs | null }) => {
  const now = asTheClockSays(useMinute());
  const [first, second] = list;
  if (!first) return <span className={styles.none}>nothing planned</span>;
  const then = second?.moment.at && `Bed ${second.row.bed} at ${formatClock(second.moment.at, zone)}`;
  if (frozenAt !== null) {
    return (
      <>
        Bed {first.row.bed} at {first.moment.at && formatClock(first.moment.at, zone)}
        {then && `, then ${then}`}
      </>
    );
  }
  return (
    <>
      <b>Bed {first.row.bed}</b> in <b className="nb">{formatMinutes(rowAt(first.row, now).minutes ?? 0)}</b>
      {then && (
        <>
          , <span className={styles.wide}>then </span>
          {then}
        </>
      )}
    </>
  );
};

const TroubleAnswer = ({
  list,
  names,
  stale,
}: {
  list: readonly Placed[];
  names: ReadonlyMap<string, string>;
  stale: boolean;
}) => {
  const high = list.filter(({ moment }) => moment.alert?.rank === 'high');
  const nobodys = high.filter(({ moment }) => moment.standing === 'nobody');
  const held = high.filter(({ moment }) => moment.standing !== 'nobody');
  if (high.length === 0) return <span className={styles.none}>nobody</span>;
  const has = stale ? 'had' : 'has';
  return (
    <>
      <Mark rank="high" className={styles.mark} />
      {nobodys.length > 0 && (
        <b>
          {nobodys.length === 1 ? 'Bed' : 'Beds'} {nobodys.map(({ row }) => row.bed).join(', ')}: nobody {has}{' '}
          {nobodys.length === 1 ? 'it' : 'them'}.
        </b>
      )}{' '}
      {held
        .map(
          ({ row, moment }) =>
            `Bed ${row.bed}: ${moment.owner === null ? 'snoozed' : (names.get(moment.owner) ?? 'somebody')}`,
        )
        .join(', ')}
    </>
  );
};
