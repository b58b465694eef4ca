import type { BoardRow } from '@slackwater/domain';
import type { EpochMs } from '@slackwater/domain/time/instant';
import type { ReactNode } from 'react';
import { percentOf, SPAN_MINUTES } from './axis.ts';
import { endsWithAxis, movesWithTime } from './moves-with-time.ts';
import { TOP_ML } from './paths.ts';
import styles from './ribbon.module.css';
import { type RibbonSource, shapesOf } from './shapes.ts';

type RibbonProps = {
  row: RibbonSource & Pick<BoardRow, 'hold' | 'offWard'>;
  origin: EpochMs;
  /** The same in one sentence. */
  label: string;
  /** Stands to the right of now. */
  note?: ReactNode;
  /** Stands to the right of the post: off the ward, on hold. */
  postNote?: { word: string; rest: string; away: 'off' | 'hold' } | null;
  /** The clock time of a due instant that lies beyond the axis. */
  beyond?: string | null;
};

/** Length is time, height is what is inside. Everything but the notes is pushed along as time goes by. */
export const Ribbon = ({ row, origin, label, note, postNote, beyond }: RibbonProps) => {
  const shapes = shapesOf(row, origin);
  const left = (at: EpochMs) => `${percentOf(at, origin)}%`;
  const { due } = row;
  const away = row.offWard ? styles.off : row.hold ? styles.hold : undefined;
  return (
    <div className={styles.ribbon} role="img" aria-label={label}>
      <div className={styles.ahead}>
        <Drawing>
          <path className={styles.aheadWater} d={shapes.ahead} />
          <path className={styles.aheadLevel} d={shapes.aheadLevel} />
          <path className={styles.planned} d={shapes.planned} />
          <path className={styles.byTheBook} d={shapes.byTheBookAhead} />
        </Drawing>
      </div>
      <div className={styles.past}>
        <Drawing>
          <path className={styles.water} d={shapes.water} />
          <path className={styles.level} d={shapes.level} />
          <path className={styles.aheadWater} d={shapes.unsureWater} />
          <path className={styles.unsure} d={shapes.unsure} />
          <path className={styles.byTheBook} d={shapes.byTheBook} />
        </Drawing>
        {due?.what === 'drain' && shapes.level !== '' && row.visit === null && (
          <div ref={movesWithTime} className={styles.moving}>
            <i className={styles.overrun} style={{ left: left(due.dueAt), height: `${heightOf(row)}%` }} />
          </div>
        )}
      </div>
      <div ref={movesWithTime} className={styles.moving}>
        <Drawing still>
          <path className={away ? styles.awayBed : styles.bed} d={shapes.bed} />
        </Drawing>
        {shapes.unknown.map((field) => (
          <i
            key={field.from}
            className={styles.unknown}
            style={{
              left: `${(100 * field.from) / SPAN_MINUTES}%`,
              width: `${(100 * (field.to - field.from)) / SPAN_MINUTES}%`,
            }}
          />
        ))}
        {due && away && row.cavity.state !== 'empty' && (
          <i className={`${styles.afterPost} ${away}`} style={{ left: left(due.dueAt) }} />
        )}
        {due && due.what !== 'review' && <Post due={due} left={left} />}
        {row.laterDrainsAt.map((at) => (
          <i key={at} className={styles.later} style={{ left: left(at) }} />
        ))}
        {due && postNote && (
          <span ref={endsWithAxis} className={styles.postNote} style={{ left: `calc(${left(due.dueAt)} + 8px)` }}>
            <span>
              <b className={styles[postNote.away]}>{postNote.word}</b> {postNote.rest}
            </span>
          </span>
        )}
      </div>
      {note && (
        <span className={styles.note}>
          <span>{note}</span>
        </span>
      )}
      {beyond && (
        <>
          <span className={styles.beyondTime}>{beyond}</span>
          <i className={styles.beyond} />
        </>
      )}
    </div>
  );
};

/** The level in per cent of the ribbon's height, for the hatch past the post. */
const heightOf = ({ ribbon }: RibbonSource): number => {
  const open = ribbon.find((piece) => piece.to === null);
  return Math.min(100, (100 * (open?.fromMl ?? 0)) / TOP_ML);
};

const Drawing = ({ children, still = false }: { children: ReactNode; still?: boolean }) => (
  <svg
    ref={still ? null : movesWithTime}
    className={styles.svg}
    viewBox={`0 0 ${SPAN_MINUTES} ${TOP_ML}`}
    preserveAspectRatio="none"
    aria-hidden="true"
  >
    {children}
  </svg>
);

/** A post on a foot: when it is due; the foot from due soon to overdue. */
const Post = ({ due, left }: { due: NonNullable<BoardRow['due']>; left: (at: EpochMs) => string }) => (
  <>
    <i
      className={styles.foot}
      style={{ left: left(due.soonAt), width: `calc(${left(due.overdueAt)} - ${left(due.soonAt)})` }}
    />
    <i className={styles.post} style={{ left: left(due.dueAt) }} />
  </>
);
