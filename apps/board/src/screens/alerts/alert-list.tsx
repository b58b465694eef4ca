import type { WardView } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain/time/instant';
import { cx } from '../../ui/class-names.ts';
import { AlertRow } from './alert-row.tsx';
import styles from './alerts.module.css';
import type { Open } from './open-alerts.ts';

type AlertListProps = {
  listed: readonly Open[];
  /** What is said where none is listed. */
  none: string;
  ward: WardView;
  names: ReadonlyMap<string, string>;
  now: EpochMs;
  mayNot: string | null;
};

/** Open alerts, one a row, under the six questions that each answers. */
export const AlertList = ({ listed, none, ward, names, now, mayNot }: AlertListProps) => (
  <>
    <div className={styles.columns} aria-hidden="true">
      <span>What, bed, patient</span>
      <span>Since</span>
      <span>Why, by which rule</span>
      <span>What next, under ward policy</span>
      <span>Who has it</span>
    </div>
    <ol className={cx(listed.length === 0 && styles.none)}>
      {listed.length === 0 && <li>{none}</li>}
      {listed.map((one) => (
        <AlertRow key={one.alert.id} open={one} ward={ward} names={names} now={now} mayNot={mayNot} />
      ))}
    </ol>
  </>
);
