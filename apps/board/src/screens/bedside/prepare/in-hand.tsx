import type { PatientIdentity } from '@slackwater/domain';
import { type BagRow, type BagVerdict, stops } from '@slackwater/domain/solution/bag-check';
import { formatIsoDate } from '@slackwater/domain/words/numbers';
import { cx } from '../../../ui/class-names.ts';
import styles from './in-hand.module.css';

const CHECKS: Record<BagRow['check'], string> = {
  solution: '1 Solution',
  volume: '2 Amount',
  expiry: '3 Expiry',
  lot: 'Lot',
};

const VERDICTS: Record<BagVerdict, string> = {
  same: 'same',
  inDate: 'in date',
  larger: 'larger',
  different: 'different',
  tooSmall: 'too small',
  expired: 'expired',
  notRecalled: 'no recall',
  recalled: 'recalled',
  unread: 'not read',
  unknown: 'by eye',
};

type InHandProps = { patient: PatientIdentity; rows: readonly BagRow[]; wristbandScanned?: boolean };

/** What is prescribed beside what is in the hand, a verdict as a word in each row. */
export const InHand = ({ patient, rows, wristbandScanned = false }: InHandProps) => {
  const who = (
    <>
      {patient.family}, {patient.given}
      <br />
      {formatIsoDate(patient.dateOfBirth)}
    </>
  );
  // An expiry that nobody typed is a statement by eye: it stands in the list below.
  const shown = rows.filter((row) => row.verdict !== 'unknown' || row.check !== 'expiry');
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th>
            <span className="sr">What</span>
          </th>
          <th scope="col">Prescribed</th>
          <th scope="col">In hand</th>
          <th>
            <span className="sr">Verdict</span>
          </th>
        </tr>
      </thead>
      <tbody>
        <tr>
          <th scope="row">Patient</th>
          <td>{who}</td>
          <td>{wristbandScanned ? `wristband says ${patient.hospitalNumber}` : 'as on the wristband?'}</td>
          <td className={styles.verdict}>{wristbandScanned ? 'scanned' : 'by eye'}</td>
        </tr>
        {shown.map((row) => (
          <tr key={row.check} className={cx(stops(row) && styles.differs)}>
            <th scope="row">{CHECKS[row.check]}</th>
            <td>
              <Said words={row.wanted ?? (row.check === 'lot' ? 'not recalled' : 'today or later')} />
            </td>
            <td>
              <Said words={row.inHand} />
            </td>
            <td className={styles.verdict}>{VERDICTS[row.verdict]}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};

/** The strength large, what it is made of in small. */
const Said = ({ words }: { words: string }) => {
  const [, strength, rest] = /^(.*?%)\s+(.+)$/.exec(words) ?? [null, words, ''];
  return (
    <>
      <b>{strength}</b> {rest && <small>{rest}</small>}
    </>
  );
};
