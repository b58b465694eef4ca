import { dateAt, type Twice } from '@slackwater/domain/time/zone';
import { twiceWords } from '@slackwater/domain/words/twice';
import { serverClock } from '../../../api/clock.ts';
import { Button } from '../../../ui/button.tsx';
import { Choice } from '../../../ui/choice.tsx';
import { Field } from '../../../ui/field.tsx';
import styles from './instant-field.module.css';
import { clockOfDigits, dateOfDigits, readInstant, type TypedInstant } from './typed-instant.ts';

type InstantFieldProps = {
  label: string;
  typed: TypedInstant;
  onTyped: (typed: TypedInstant) => void;
  zone: string;
  /** What is wrong with the instant although it can be read: names the value and what is allowed. */
  wrong?: string | undefined;
};

/** A date and a clock time of the ward, typed. */
export const InstantField = ({ label, typed, onTyped, zone, wrong }: InstantFieldProps) => {
  const { problem: unread, two } = readInstant(typed, zone);
  const problem = unread ?? wrong;
  return (
    <fieldset className={styles.instant}>
      <legend>{label}</legend>
      <Field
        label="Date"
        value={typed.date}
        onChange={(date) => onTyped({ ...typed, date: dateOfDigits(date) })}
        hint="YYYY-MM-DD"
        inputMode="numeric"
        autoComplete="off"
      />
      <Field
        label="Time"
        value={typed.clock}
        onChange={(clock) => onTyped({ ...typed, clock: clockOfDigits(clock) })}
        hint="HH:MM, 24 h"
        inputMode="numeric"
        autoComplete="off"
      />
      {typed.date === '' && (
        <Button
          tone="text"
          className={styles.today}
          onPress={() => onTyped({ ...typed, date: dateAt(serverClock.now(), zone) })}
        >
          Today<span className="sr">: {label}</span>
        </Button>
      )}
      {two && <WhichOfTwo typed={typed} onTyped={onTyped} words={twiceWords(two, zone)} />}
      {problem && !(two && unread) && (
        <p className={styles.problem} role="alert">
          {label}: {problem}
        </p>
      )}
    </fieldset>
  );
};

type WhichOfTwoProps = Pick<InstantFieldProps, 'typed' | 'onTyped'> & { words: Record<keyof Twice, string> };

/** Asked where the clocks go back over the time that was typed: nothing is chosen beforehand. */
const WhichOfTwo = ({ typed, onTyped, words }: WhichOfTwoProps) => (
  <Choice
    label={`${typed.clock} happens twice on ${typed.date}. Which was it?`}
    layout="apart"
    className={styles.which}
    value={typed.which}
    onChange={(which) => onTyped({ ...typed, which })}
    options={[
      { value: 'earlier', label: `${typed.clock} ${words.earlier}` },
      { value: 'later', label: `${typed.clock} ${words.later}` },
    ]}
  />
);
