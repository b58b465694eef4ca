import type { ProbablyInside } from '@slackwater/domain';
import { formatMl, formatWhole } from '@slackwater/domain/words/numbers';
import type { ExpectedOut } from '../model/expected-out.ts';
import styles from './bars.module.css';

type BarsProps = {
  inMl: number | null;
  inDetail: string;
  outMl: number;
  outDetail: string;
  expected: ExpectedOut | null;
  inside: ProbablyInside;
  /** The most expected inside during the dwell to come, and the patient's own limit. */
  afterFill: { peakMl: number | null; limitMl: number | null } | null;
};

const to10 = (ml: number) => Math.round(ml / 10) * 10;

/** In, out, inside, after the fill: bars on one scale, so that lengths can be compared by eye. */
export const Bars = ({ inMl, inDetail, outMl, outDetail, expected, inside, afterFill }: BarsProps) => {
  const most = Math.max(3000, inMl ?? 0, outMl, expected?.highMl ?? 0, afterFill?.peakMl ?? 0, afterFill?.limitMl ?? 0);
  const at = (ml: number) => `${(Math.max(0, ml) / most) * 100}%`;
  const { flowMl, bookMl } = inside;
  const least = flowMl === null || bookMl === null ? null : Math.min(flowMl, bookMl);
  const top = flowMl === null || bookMl === null ? null : Math.max(flowMl, bookMl);
  const insideTrack = least !== null && top !== null && (
    <>
      <i className={styles.firm} style={{ width: at(least) }} />
      {top > least && <i className={styles.doubt} style={{ left: at(least), width: at(top - least) }} />}
    </>
  );
  return (
    <div className={styles.bars}>
      <span className={styles.label}>In</span>
      <span className={styles.track} aria-hidden="true">
        {inMl !== null && <i className={styles.firm} style={{ width: at(inMl) }} />}
      </span>
      <span className={styles.value}>
        <b>{inMl === null ? 'not known' : formatMl(inMl)}</b> <small>{inDetail}</small>
      </span>

      <span className={styles.label}>Out</span>
      <span className={styles.track} aria-hidden="true">
        <i className={styles.firm} style={{ width: at(outMl) }} />
        {expected && expected.outMl > outMl && (
          <i className={styles.missing} style={{ left: at(outMl), width: at(expected.outMl - outMl) }} />
        )}
        {expected && (
          <>
            <i
              className={styles.range}
              style={{ left: at(expected.lowMl), width: at(expected.highMl - expected.lowMl) }}
            />
            <i className={styles.expected} style={{ left: at(expected.outMl) }} />
          </>
        )}
      </span>
      <span className={styles.value}>
        <b>{formatMl(outMl)}</b> <small>{outDetail}</small>
      </span>

      <span className={styles.label}>Inside</span>
      <span className={styles.track} aria-hidden="true">
        {insideTrack}
      </span>
      <span className={styles.value}>
        {flowMl === null || bookMl === null ? (
          <b>not known</b>
        ) : (
          <>
            <b>{formatMl(to10(bookMl))}</b> <small>book, {formatWhole(to10(flowMl))} flow</small>
          </>
        )}
      </span>

      {afterFill && afterFill.peakMl !== null && (
        <>
          <span className={styles.label}>After fill</span>
          <span className={styles.track} aria-hidden="true">
            {insideTrack}
            {top !== null && (
              <i className={styles.ahead} style={{ left: at(top), width: at(afterFill.peakMl - top) }} />
            )}
            {afterFill.limitMl !== null && <i className={styles.limit} style={{ left: at(afterFill.limitMl) }} />}
          </span>
          <span className={styles.value}>
            <b>{formatMl(to10(afterFill.peakMl))}</b>{' '}
            <small>{afterFill.limitMl === null ? 'at most, about' : `of ${formatWhole(afterFill.limitMl)}`}</small>
          </span>
        </>
      )}
    </div>
  );
};
