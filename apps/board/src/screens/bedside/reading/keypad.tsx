import { Button } from '../../../ui/button.tsx';
import styles from './keypad.module.css';

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const;

/** Large keys beside the field, for gloves; a keyboard types into the field itself. */
export const Keypad = ({ typed, onTyped }: { typed: string; onTyped: (typed: string) => void }) => (
  <fieldset className={styles.pad} aria-label="Keypad">
    {DIGITS.map((digit) => (
      <Button key={digit} className={styles.digit} onPress={() => onTyped(typed + digit)}>
        {digit}
      </Button>
    ))}
    <Button onPress={() => onTyped('')}>Clear</Button>
    <Button className={styles.digit} onPress={() => onTyped(`${typed}0`)}>
      0
    </Button>
    <Button onPress={() => onTyped(typed.slice(0, -1))}>Delete</Button>
  </fieldset>
);
