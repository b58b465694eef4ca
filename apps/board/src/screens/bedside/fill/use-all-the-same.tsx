import type { Override } from '@slackwater/domain';
import { useState } from 'react';
import { BagOverride } from '../prepare/bag-override.tsx';
import mismatchStyles from '../prepare/mismatch.module.css';
import { ByRole } from '../shared/ways-round.tsx';

type UseAllTheSameProps = { why: string; onOverride: (override: Override) => void };

/** A bag that its check stops during a visit: another one is the way; going on leaves a trace. */
export const UseAllTheSame = ({ why, onOverride }: UseAllTheSameProps) => {
  const [asking, setAsking] = useState(false);
  return (
    <>
      <p className={mismatchStyles.said} role="alert">
        <b>{why}</b>
        Not with this bag: take another one.
      </p>
      <ul className={mismatchStyles.ways}>
        <ByRole words="Use it all the same" onPress={() => setAsking(true)} />
      </ul>
      {asking && (
        <BagOverride
          title={why}
          onClose={() => setAsking(false)}
          onOverride={(override) => {
            setAsking(false);
            onOverride(override);
          }}
        />
      )}
    </>
  );
};
