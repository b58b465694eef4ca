import type { Guard } from '@slackwater/domain/cavity/guard';
import { Link } from 'react-router';
import { paths } from '../../../paths.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { insideWords } from '../model/words.ts';
import styles from './guard-panel.module.css';

/** The fill is not offered: why, in numbers, and what else can be done. */
export const GuardPanel = ({ guard }: { guard: Guard }) => {
  const { state, view, open, mayDo } = useBedside();
  return (
    <section className={styles.guard} aria-labelledby="guard">
      <h3 id="guard">The fill is not offered</h3>
      <p className={styles.inside}>Probably inside: {insideWords(state.inside)}</p>
      <p>{guard.why}</p>
      <p>
        <Link to={paths.inside(view.patient.id)}>How the figures came about, dwell by dwell</Link>
      </p>
      <ul className={styles.ways}>
        <li>
          <Button
            onPress={() => open('confirmEmpty')}
            disabledBecause={mayDo('confirmEmpty') ? null : 'not in your role'}
          >
            Confirm empty
          </Button>
          <span>a second drain under 100 mL after a turn, imaging, or the physician; with the reason</span>
        </li>
        <li>
          <Button onPress={() => open('order')} disabledBecause={mayDo('telephoneOrder') ? null : 'not in your role'}>
            Smaller fill
          </Button>
          <span>by an order: asks the physician</span>
        </li>
        <li>
          <Button onPress={() => open('leaveEmpty')}>Close without fill</Button>
          <span>the fluid stays counted; the board shows bed {view.bed ?? 'none'} with it</span>
        </li>
        <li>
          <Button
            onPress={() => open('override')}
            disabledBecause={mayDo('overrideGuard') ? null : 'charge nurse or physician'}
          >
            Fill all the same
          </Button>
          <span>with a reason, signed</span>
        </li>
      </ul>
    </section>
  );
};

/** The fill may go on, but something is asked first. */
export const GuardQuestion = ({ guard }: { guard: Guard }) => (
  <p className={styles.asks}>
    <b>Before the fill</b>
    {guard.why}
  </p>
);
