import { useState } from 'react';
import { Button } from '../../../ui/button.tsx';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import fillStyles from '../fill/fill.module.css';
import { act } from '../model/batch.ts';
import { Acts } from '../shared/acts.tsx';

/** The drain would end an antibiotic's dwell too early: asked once, and it goes on with a reason. */
export const EarlyDrain = ({ tooEarly, at }: { tooEarly: string; at: () => number }) => {
  const { record, sending } = useBedside();
  const [reason, setReason] = useState('');
  const [physician, setPhysician] = useState('');
  const early = { reason: reason.trim(), physician: physician.trim() || null };
  return (
    <>
      <p className={fillStyles.stopAt}>
        <b>Drain now anyway?</b> {tooEarly} Call the physician, unless the patient cannot wait.
      </p>
      <Field label="Reason to drain now" value={reason} onChange={setReason} maxLength={500} />
      <Field label="Physician asked, if any" value={physician} onChange={setPhysician} maxLength={120} />
      <Acts>
        <Button
          tone="main"
          onPress={() => void record([act('startDrain', { early }, at())])}
          disabledBecause={sending ? 'being sent' : early.reason === '' ? 'the reason is missing' : null}
        >
          Drain has started, for this reason
        </Button>
      </Acts>
    </>
  );
};
