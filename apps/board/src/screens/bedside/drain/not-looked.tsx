import { serverClock } from '../../../api/clock.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { By } from '../shared/heading.tsx';
import { asUsual } from './as-usual.ts';
import styles from './drain.module.css';

/** A drain that was ended before anybody said how it looks: asked while its bag still hangs there. */
export const NotLooked = () => {
  const { state, record, sending, open } = useBedside();
  const { visit } = state;
  const drain = visit?.drains.at(-1);
  if (!visit || !drain || drain.appearance.length > 0) return null;
  return (
    <section>
      <By>Nobody has said how it looks</By>
      <div className={styles.row}>
        <Button
          onPress={() => void record(asUsual(visit, serverClock.now()))}
          disabledBecause={sending ? 'being sent' : null}
        >
          {visit.comfort ? 'Clear' : 'Clear, comfortable, as usual'}
        </Button>
        <Button onPress={() => open('looks')}>Something else</Button>
      </div>
    </section>
  );
};
