import { type ReactNode, useRef } from 'react';
import styles from './pool.module.css';

/** A hand that still lies where the last screen's button was must not answer for this one. */
const DEAF_MS = 1000;

/**
 * The one zone of a still screen. Any contact counts, a knuckle or an elbow as well, from the moment it lands: large
 * contacts are often taken back by the browser before they lift. The first second is deaf.
 */
export const Pool = ({ word, onTouch, children }: { word: string; onTouch: () => void; children: ReactNode }) => {
  const shownAt = useRef(performance.now());
  const touch = () => {
    if (performance.now() - shownAt.current >= DEAF_MS) onTouch();
  };
  return (
    <button
      type="button"
      className={styles.pool}
      onPointerDown={(event) => {
        event.preventDefault();
        touch();
      }}
      // A keyboard or a screen reader presses without a pointer.
      onClick={(event) => {
        if (event.detail === 0) touch();
      }}
    >
      <b>{word}</b>
      {children}
    </button>
  );
};
