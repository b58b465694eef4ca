import styles from './logo.module.css';

/** The mark: water at rest between two tides. */
export const Logo = ({ className }: { className?: string | undefined }) => (
  <svg className={className ?? styles.logo} viewBox="0 0 30 16" aria-hidden="true">
    <path className={styles.water} d="M5 13 9.5 5H20.5L25 13Z" />
    <path className={styles.level} d="M5 13 9.5 5H20.5L25 13" />
    <path className={styles.bed} d="M0.5 13.2H29.5" />
  </svg>
);
