import type { WallRow } from '@slackwater/domain';
import { cx } from '../../ui/class-names.ts';
import styles from './bed-number.module.css';

/** A bed by its number, with the line that says "off the ward" or "on hold": the key stands at the foot of the wall. */
export const BedNumber = ({ row }: { row: WallRow }) => (
  <b className={cx(styles.bed, row.offWard ? styles.off : row.hold && styles.hold)}>
    <span className="sr">Bed </span>
    {row.bed}
  </b>
);
