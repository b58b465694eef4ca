import type { NextBagShown } from '@slackwater/domain';
import type { BagToWarm, NoBag, WarmList } from '@slackwater/domain/ward/warm-list';
import { formatClock, formatMl } from '@slackwater/domain/words/numbers';
import { Button } from '../../../ui/button.tsx';
import { Dialog } from '../../../ui/dialog.tsx';
import styles from './warm-bags.module.css';

type WarmTableProps = { list: WarmList; until: string; zone: string; onClose: () => void };

/** The bags by time and bed. Where the bag is not certain it says why, and which others it may be: nothing is picked. */
const WarmTable = ({ list: { bags, without }, until, zone, onClose }: WarmTableProps) => (
  <Dialog title={`Bags to warm by ${until}`} onClose={onClose}>
    {bags.length === 0 ? <p>No bag to warm.</p> : <Bags bags={bags} zone={zone} />}
    {without.length > 0 && <Without list={without} zone={zone} />}
    <Button onPress={onClose}>Back</Button>
  </Dialog>
);

export default WarmTable;

const bagWords = ({ fillMl, strength }: { fillMl: number; strength: string }): string =>
  `${formatMl(fillMl)} ${strength}`;

const DOUBT_WORDS = {
  whichItem: 'which exchange of the day comes next is not recorded',
  severalOrders: 'several orders name a bag',
} as const;

const doubtWords = (doubt: NextBagShown['doubts'][number]): string =>
  doubt.why === 'condition'
    ? `as prescribed: “${doubt.condition}”`
    : `or ${doubt.others.map(bagWords).join(', or ')}: ${DOUBT_WORDS[doubt.why]}`;

const Bags = ({ bags, zone }: { bags: readonly BagToWarm[]; zone: string }) => (
  <table className={styles.table}>
    <thead>
      <tr>
        <th scope="col">Due</th>
        <th scope="col">Bed</th>
        <th scope="col">Bag</th>
      </tr>
    </thead>
    <tbody>
      {bags.map((bag) => (
        <tr key={`${bag.bed} ${bag.at}`}>
          <td className="mono">{formatClock(bag.at, zone)}</td>
          <th scope="row">{bag.bed}</th>
          <td>
            {bagWords(bag)}
            {bag.doubts.length > 0 && (
              <span className={styles.doubt}>
                <b>Not certain</b> {bag.doubts.map(doubtWords).join('; ')}
              </span>
            )}
          </td>
        </tr>
      ))}
    </tbody>
  </table>
);

const whyWords = (none: NoBag, zone: string): string => {
  switch (none.why) {
    case 'hold':
      return `fills are on hold, review by ${formatClock(none.reviewBy, zone)}`;
    case 'stayEmpty':
      return `stays empty until ${formatClock(none.until, zone)} by order`;
    case 'notPrescribed':
      return 'nothing is prescribed';
  }
};

const Without = ({ list, zone }: { list: readonly NoBag[]; zone: string }) => (
  <>
    <h3 className={styles.head}>No bag after the drain</h3>
    <ul className={styles.without}>
      {list.map((none) => (
        <li key={`${none.bed} ${none.at}`}>
          <span className="mono">{formatClock(none.at, zone)}</span> Bed <b>{none.bed}</b>: {whyWords(none, zone)}
        </li>
      ))}
    </ul>
  </>
);
