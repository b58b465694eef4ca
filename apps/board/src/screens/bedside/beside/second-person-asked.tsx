import { waitsForSecondPerson } from '@slackwater/domain/exchange/additive-check';
import { orderedAdditivesWords } from '@slackwater/domain/prescription/additive-words';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { serverClock } from '../../../api/clock.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { CheckFields, EMPTY_CHECK, missingOf, payloadOf } from '../fill/check-fields.tsx';
import { act } from '../model/batch.ts';
import { Beside } from '../shared/facts.tsx';
import formStyles from '../shared/form.module.css';

/** A colleague waits for a second person: the check from one's own session. */
export const SecondPersonAsked = () => {
  const { state, session, mayDo } = useBedside();
  const check = state.visit?.additiveCheck ?? null;
  if (!waitsForSecondPerson(check) || check.askedBy === session.account.id || !mayDo('checkAdditives')) return null;
  return <Check key={check.askedId} askedId={check.askedId} />;
};

const Check = ({ askedId }: { askedId: string }) => {
  const { state, policy, ward, clock, record, sending } = useBedside();
  const [found, setFound] = useState(EMPTY_CHECK);
  const check = state.visit?.additiveCheck;
  if (!check) return null;
  const by = ward.staff.find(({ accountId }) => accountId === check.askedBy)?.name ?? 'A colleague';
  const strength = solutionOf(policy.formulary, check.bag.solutionId)?.strength ?? check.bag.solutionId;
  const sign = () => {
    const at = Math.max(serverClock.now(), check.askedAt);
    void record([act('additiveChecked', payloadOf(found, askedId), at)]);
  };
  return (
    <Beside title="Waits for a second person">
      <p>
        {by}, {clock(check.askedAt)}: <b>{orderedAdditivesWords(check.additives)}</b> in {formatMl(check.prescribedMl)}{' '}
        of {strength}
        {check.bag.lot ? `, lot ${check.bag.lot}` : ''}.
      </p>
      <div className={formStyles.form}>
        <CheckFields draft={found} onChange={setFound} />
        <div>
          <Button tone="main" onPress={sign} disabledBecause={sending ? 'being sent' : missingOf(found)}>
            Sign as second person
          </Button>
        </div>
      </div>
    </Beside>
  );
};
