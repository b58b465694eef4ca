import styles from './sign-in.module.css';

/** What stands before anybody may come in: the tool's limits. */
export const Caution = () => (
  <section className={styles.pool} aria-label="Caution">
    <p>
      <b>Supports trained staff.</b> It replaces neither their judgement, nor the prescription, nor local policy. It is
      not a medical device and has not been certified as one.
    </p>
  </section>
);
