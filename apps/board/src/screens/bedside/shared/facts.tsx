import type { ReactNode } from 'react';
import styles from './facts.module.css';

/** A short section of what stands beside the work. */
export const Beside = ({ title, children }: { title: ReactNode; children: ReactNode }) => (
  <section className={styles.section}>
    <h2>{title}</h2>
    {children}
  </section>
);

export type Fact = { term: ReactNode; value: ReactNode; detail?: ReactNode };

/** Terms and values, one below the other. */
export const Facts = ({ facts }: { facts: readonly Fact[] }) => (
  <dl className={styles.facts}>
    {facts.map((fact, index) => (
      // The list is rebuilt as a whole; a term may be a node, so its place is its name.
      // biome-ignore lint/suspicious/noArrayIndexKey: terms have no other identity
      <div key={index}>
        <dt>{fact.term}</dt>
        <dd>
          {fact.value}
          {fact.detail ? <small>{fact.detail}</small> : null}
        </dd>
      </div>
    ))}
  </dl>
);

/** Where a rule or a number is from, in small. */
export const Source = ({ children }: { children: ReactNode }) => <p className={styles.source}>{children}</p>;
