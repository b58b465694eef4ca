import { type EpochMs, HOUR_MS } from '@slackwater/domain/time/instant';
import { formatClock } from '@slackwater/domain/words/numbers';
import { memo } from 'react';
import { percentOf, shiftPercent } from '../../components/ribbon/axis.ts';
import { movesWithTime } from '../../components/ribbon/moves-with-time.ts';
import { useEachMinute } from '../../live/now.ts';
import { cx } from '../../ui/class-names.ts';
import styles from './axis.module.css';
import { labelled, NARROW, ROOMY } from './hour-labels.ts';

/** Full hours that the drawing of this hour may show. */
const hoursFrom = (origin: EpochMs): readonly EpochMs[] =>
  Array.from({ length: 12 }, (_, index) => origin + index * HOUR_MS);

/** The heads of the columns, and the hours over the ribbons. */
export const Axis = memo(({ origin, zone }: { origin: EpochMs; zone: string }) => (
  <div className={styles.axis} aria-hidden="true">
    <span className={styles.when}>Countdown, state</span>
    <span className={styles.bed}>Bed</span>
    <span className={styles.patient}>Patient</span>
    <span className={styles.inside}>
      <span className={styles.insideAlone}>Inside</span>
      <span className={styles.insideAndDay}>Inside, ward day</span>
    </span>
    <span className={styles.ribbon}>
      <Hours origin={origin} zone={zone} />
      <b className={styles.now}>now</b>
    </span>
    <span className={styles.last}>
      <span className={styles.lastAlone}>Last dwell</span>
      <span className={styles.lastAndDay}>Last dwell, ward day</span>
    </span>
    <span className={styles.day}>Ward day</span>
    <span className={styles.alert}>Alert and who has it</span>
    <span className={styles.nurse}>Nurse</span>
  </div>
));

/** Hours where they do not touch the mark of now or the edge; pushed along, and drawn anew when others have room. */
const Hours = ({ origin, zone }: { origin: EpochMs; zone: string }) => {
  const hours = hoursFrom(origin);
  const shown = useEachMinute((now) => {
    const shift = shiftPercent(now, origin);
    const lefts = hours.map((hour) => percentOf(hour, origin) - shift);
    return JSON.stringify([labelled(lefts, ROOMY), labelled(lefts, NARROW)]);
  });
  const [roomy, narrow] = JSON.parse(shown) as [readonly number[], readonly number[]];
  return (
    <span ref={movesWithTime} className={styles.moving}>
      {hours.map(
        (hour, index) =>
          (roomy.includes(index) || narrow.includes(index)) && (
            <i
              key={hour}
              className={cx(
                styles.hour,
                !narrow.includes(index) && styles.roomy,
                !roomy.includes(index) && styles.narrow,
              )}
              style={{ left: `${percentOf(hour, origin)}%` }}
            >
              {formatClock(hour, zone).slice(0, 5)}
            </i>
          ),
      )}
    </span>
  );
};

/** Hour lines and the line for now, behind and before all ribbons. */
export const AxisLines = memo(({ origin }: { origin: EpochMs }) => (
  <>
    <div className={styles.lines} aria-hidden="true">
      <span className={styles.ribbon}>
        <i className={styles.past} />
        <span className={styles.clip}>
          <HourLines origin={origin} />
        </span>
      </span>
    </div>
    <div className={cx(styles.lines, styles.front)} aria-hidden="true">
      <span className={styles.ribbon}>
        <i className={styles.nowLine} />
      </span>
    </div>
  </>
));

export const HourLines = ({ origin }: { origin: EpochMs }) => (
  <span ref={movesWithTime} className={styles.moving}>
    {hoursFrom(origin).map((hour) => (
      <i key={hour} className={styles.hourLine} style={{ left: `${percentOf(hour, origin)}%` }} />
    ))}
  </span>
);
