import { type ReactNode, Suspense } from 'react';
import styles from './rounds.module.css';

type FigureProps = {
  /** What the chart shows, as a sentence that stands without it. */
  sentence: ReactNode;
  what: string;
  /** The same numbers as a table. */
  table: { head: readonly string[]; rows: readonly (readonly string[])[] };
  /** Why there is nothing to draw; null when there is. */
  empty: string | null;
  children: ReactNode;
};

/** The one wrapper of every chart: a sentence above it, the numbers below it, nothing drawn where nothing is. */
export const Figure = ({ sentence, what, table, empty, children }: FigureProps) => (
  <figure className={styles.figure}>
    <figcaption>{sentence}</figcaption>
    <p className={styles.sub}>{what}</p>
    {empty ? (
      <p className={styles.none}>{empty}</p>
    ) : (
      <div className={styles.chart} role="img" aria-label={`${what}; the numbers stand in the table below`}>
        <Suspense fallback={<p className="quiet">The chart is being drawn.</p>}>{children}</Suspense>
      </div>
    )}
    {!empty && (
      <details>
        <summary>{what}: the numbers</summary>
        <table className={styles.table}>
          <thead>
            <tr>
              {table.head.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.map((row) => (
              <tr key={row[0]}>
                {row.map((cell, index) => (
                  <td key={table.head[index]}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    )}
  </figure>
);
