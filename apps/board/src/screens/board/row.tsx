import type { BoardRow } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { formatClock, formatIsoDate, formatMl } from '@slackwater/domain/words/numbers';
import { memo } from 'react';
import { Link } from 'react-router';
import { Balance, Removed } from '../../components/balance.tsx';
import { Ribbon } from '../../components/ribbon/ribbon.tsx';
import { paths } from '../../paths.ts';
import { cx } from '../../ui/class-names.ts';
import { Countdown } from './countdown.tsx';
import { Inside } from './inside.tsx';
import type { Placed } from './moment.ts';
import { noteOf, postNoteOf, ribbonLabel } from './ribbon-words.ts';
import styles from './row.module.css';
import { RowAlert } from './row-alert.tsx';
import { STATE_WORDS } from './words.ts';

type RowProps = {
  placed: Placed;
  origin: EpochMs;
  zone: string;
  names: ReadonlyMap<string, string>;
  wardId: string;
  mayTake: boolean;
  stale: boolean;
};

/** One patient on the board. Drawn again only when the row or its moment changed; the numerals count by themselves. */
export const Row = memo(({ placed: { row, moment }, origin, zone, names, wardId, mayTake, stale }: RowProps) => {
  const { patient } = row;
  const clock = (at: EpochMs) => formatClock(at, zone);
  const twoLines = moment.alert !== null || needsTwoLines(row);
  const isHigh = moment.alert?.rank === 'high';
  const unheld = isHigh && moment.standing === 'nobody';
  const nurse = moment.nurse ? (names.get(moment.nurse) ?? row.nurse?.name) : null;
  return (
    <li
      className={cx(
        styles.row,
        styles[moment.group],
        twoLines && styles.two,
        linesInside(row) && styles.grows,
        row.offWard && styles.away,
        unheld && styles.unheld,
        isHigh && !unheld && styles.held,
        moment.alert && styles.hasAlert,
      )}
      data-bed={row.bed}
    >
      <span className={styles.when}>
        <span className={styles.numerals}>
          {moment.word === 'empty' || moment.word === 'onHold' || moment.word === 'unknown' ? (
            <b className={styles.noNumber}>{STATE_WORDS[moment.word]}</b>
          ) : (
            <Countdown row={row} />
          )}
        </span>
        <span className={styles.state}>
          <b className={styles.stateWord}>{STATE_WORDS[moment.word]}</b>{' '}
          {moment.at !== null && moment.word !== 'onHold' && (
            <>
              {moment.group === 'empty' && <span className={styles.what}>fill </span>}
              <span className={styles.clock}>{clock(moment.at)}</span>
            </>
          )}
        </span>
      </span>
      <span className={styles.bed}>
        <span className="sr">Bed </span>
        {row.bed}
      </span>
      <Link className={styles.patient} to={paths.bedside(patient.id)}>
        <span className={styles.name}>
          {patient.family}, {patient.given}
        </span>{' '}
        {row.likeNameBeds.length > 0 && (
          <span className={styles.like}>name like Bed {row.likeNameBeds.join(', ')}</span>
        )}
        {row.workUp && <span className={styles.workUp}>{workUpWords(row.workUp.awaiting)}</span>}
        <span className={styles.identifiers}>
          <span>{formatIsoDate(patient.dateOfBirth)}</span>{' '}
          <span className={styles.number}>{patient.hospitalNumber}</span>
        </span>
      </Link>
      <span className={styles.inside}>
        <Link className={styles.account} to={paths.inside(patient.id)}>
          <Inside row={row} zone={zone} />
          <span className="sr">, how that came about</span>
        </Link>
        <span className={styles.insideDay}>
          <span className={styles.pre}>day</span>
          {moment.dayOver ? <NoExchange /> : <Balance balance={row.day} zone={zone} />}
        </span>
      </span>
      <span className={styles.ribbon}>
        <Ribbon
          row={row}
          origin={origin}
          label={ribbonLabel(row, moment, clock)}
          note={noteOf(row, moment, clock, formatMl)}
          postNote={postNoteOf(row, clock)}
          beyond={moment.beyond && row.due?.what === 'drain' ? clock(row.due.dueAt) : null}
        />
      </span>
      <span className={styles.last}>
        {row.lastDwell && (
          <>
            <span className={styles.pre}>last</span>
            <Removed removedMl={row.lastDwell.drainMinusFillMl} />
            {row.lastDwell.drainedAt !== null && <span className={styles.age}>{clock(row.lastDwell.drainedAt)}</span>}
          </>
        )}
      </span>
      <span className={styles.day}>
        <span className={styles.pre}>day</span>
        {moment.dayOver ? <NoExchange /> : <Balance balance={row.day} zone={zone} />}
      </span>
      <span className={styles.alert}>
        {moment.alert && (
          <RowAlert
            alert={moment.alert}
            standing={moment.standing ?? 'nobody'}
            more={moment.moreAlerts}
            wardId={wardId}
            patientId={patient.id}
            names={names}
            zone={zone}
            mayTake={mayTake}
            stale={stale}
          />
        )}
      </span>
      <span className={styles.nurse}>{nurse}</span>
    </li>
  );
});

/** A new ward day begins without an exchange. */
const NoExchange = () => <b className={styles.noExchange}>No exchange</b>;

/** The suspected peritonitis that is open, by what comes next; short, since it stands beside the name. */
const workUpWords = ([first]: NonNullable<BoardRow['workUp']>['awaiting']): string => `work-up: ${first ?? 'conclude'}`;

/** More than volume and strength is said of what is inside: never cut, so the row grows. */
const linesInside = (row: BoardRow): boolean =>
  row.hasAdditives || row.waitsForSecondPersonSince !== null || row.stayEmpty !== null || row.fluidHandover !== null;

/** Letters that stand before a date of birth in one line; the family name's are capitals, a quarter wider. */
const ONE_LINE = 23;

/** A like name, a work-up, an absence, a long strength or a long name takes a second line even far below. */
const needsTwoLines = (row: BoardRow): boolean =>
  row.likeNameBeds.length > 0 ||
  row.workUp !== null ||
  row.offWard !== null ||
  row.hold !== null ||
  linesInside(row) ||
  (row.insideStrength?.length ?? 0) > 8 ||
  1.25 * row.patient.family.length + row.patient.given.length > ONE_LINE;
