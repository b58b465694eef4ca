import type { Balance as BalanceOver } from '@slackwater/domain';
import { isComplete } from '@slackwater/domain/balance/balance';
import { balanceWords, removedWords } from '@slackwater/domain/balance/words';
import styles from './balance.module.css';

/** A figure of one dwell: a word and a positive number; nothing measured is said so, never drawn as zero. */
export const Removed = ({ removedMl }: { removedMl: number | null }) => {
  if (removedMl === null) return <Missing words="Incomplete" />;
  const [word, ...rest] = removedWords(removedMl).split(' ');
  return (
    <span className={removedMl < 0 ? styles.retained : styles.balance}>
      <span className={styles.word}>{word}</span> <span className={styles.number}>{rest.join(' ')}</span>
    </span>
  );
};

/** A balance over some time. */
export const Balance = ({ balance, zone }: { balance: BalanceOver; zone: string }) => {
  if (!isComplete(balance)) return <Missing words="Incomplete" detail={balanceWords(balance, zone)} />;
  if (balance.exchanges === 0) return <Missing words="No exchange" />;
  return <Removed removedMl={balance.removedMl} />;
};

const Missing = ({ words, detail }: { words: string; detail?: string }) => (
  <span className={styles.missing} title={detail}>
    <b>{words}</b>
    {detail && <span className="sr">{detail.replace(/^Incomplete/, '')}</span>}
  </span>
);
