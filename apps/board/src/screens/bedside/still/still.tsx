import type { ReactNode } from 'react';
import { cx } from '../../../ui/class-names.ts';
import type { Fact } from '../shared/facts.tsx';
import { Pool } from './pool.tsx';
import styles from './still.module.css';

type StillProps = {
  title: string;
  words: readonly string[];
  given: readonly Fact[];
  pool: { word: string; onTouch: () => void; hints: readonly string[] };
  /** What may be done before the hands are clean: small, at the edge. */
  ways: ReactNode;
};

/** A screen for clean hands: it shows what is prescribed and asks nothing. */
export const Still = ({ title, words, given, pool, ways }: StillProps) => (
  <main className={styles.still}>
    <div className={styles.top}>
      <div>
        <h2 className="sr">{title}</h2>
        <ol className={cx(styles.words, words.length > 3 && styles.many)}>
          {words.map((word) => (
            <li key={word}>{word}</li>
          ))}
        </ol>
      </div>
      <dl className={styles.given}>
        {given.map((fact) => (
          <div key={String(fact.term)}>
            <dt>{fact.term}</dt>
            <dd>
              {fact.value} {fact.detail ? <small>{fact.detail}</small> : null}
            </dd>
          </div>
        ))}
      </dl>
    </div>
    <div className={styles.ways}>{ways}</div>
    <Pool word={pool.word} onTouch={pool.onTouch}>
      {pool.hints.map((hint) => (
        <span key={hint}>{hint}</span>
      ))}
    </Pool>
  </main>
);
