import type { Override } from '@slackwater/domain';
import { useState } from 'react';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { BagOverride } from '../prepare/bag-override.tsx';
import mismatchStyles from '../prepare/mismatch.module.css';

type UseAllTheSameProps = { why: string; onOverride: (override: Override) => void };

/** A bag that its check stops during a visit: another one is the way; going on leaves a trace. */
export const UseAllTheSame = ({ why, onOverride }: UseAllTheSameProps) => {
  const { mayDo } = useBedside();
  const [asking, setAsking] = useState(false);
  return (
    <>
      <p className={mismatchStyles.said} role="alert">
        <b>{why}</b>
        Not with this bag: take another one.
      </p>
      <ul className={mismatchStyles.ways}>
        <li>
          <Button
            tone="text"
            onPress={() => setAsking(true)}
            disabledBecause={mayDo('overrideGuard') ? null : 'a charge nurse or a nephrologist, with a reason'}
          >
            Use it all the same
          </Button>
          <br />
          <span>Local policy comes first. Who decided and why stands in the record and in the audit.</span>
        </li>
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
