import type { BagInHand, EpochMs } from '@slackwater/domain';
import { checkHoldsUntil, isCheckedFill } from '@slackwater/domain/exchange/additive-check';
import { orderedAdditivesWords } from '@slackwater/domain/prescription/additive-words';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import type { ReactNode } from 'react';
import { serverClock } from '../../../api/clock.ts';
import { newId } from '../../../api/ids.ts';
import { useMinute } from '../../../live/now.ts';
import { useReach } from '../../../outbox/use-outbox.ts';
import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { Acts } from '../shared/acts.tsx';
import styles from './fill.module.css';
import { SecondPersonHere } from './second-person-here.tsx';

type CheckedFillProps = {
  bag: BagInHand;
  wanted: NextBag;
  /** The start of the fill, once somebody else has agreed; `id` is the one that was checked. */
  children: (checked: { id: string; at: () => EpochMs }) => ReactNode;
};

/** Before a fill with something added: asked, waited for, agreed; only then can it be started. */
export const CheckedFill = ({ bag, wanted, children }: CheckedFillProps) => {
  const { state, policy, entries, ward, clock, record, sending } = useBedside();
  const { down } = useReach();
  useMinute();
  const { additives } = wanted;
  const kept = state.visit?.additiveCheck ?? null;
  // A fill that was taken back has used its check up: its id stands in the record.
  const used = kept !== null && entries.some(({ id }) => id === kept.fillId);
  const fill = { bag, prescribedMl: wanted.fillMl, additives };
  const check = kept !== null && !used && isCheckedFill(kept, kept.fillId, fill) ? kept : null;
  const holdsUntil = checkHoldsUntil(check, policy.settings.secondPersonMinutes);
  const nameOf = (id: string | null) => ward.staff.find(({ accountId }) => accountId === id)?.name ?? 'somebody';

  const ask = () => {
    const { revisionId, itemId, orderId } = wanted;
    void record([
      act('additiveCheckAsked', { fillId: newId(), ...fill, revisionId, itemId, orderId }, serverClock.now()),
    ]);
  };
  const askButton = (words: string, tone: 'main' | 'side' = 'main') => (
    <Button
      tone={tone}
      onPress={ask}
      disabledBecause={
        sending ? 'being sent' : down ? 'no connection: a second person is asked through the server' : null
      }
    >
      {words}
    </Button>
  );

  if (check?.checked?.agrees && holdsUntil !== null && serverClock.now() <= holdsUntil) {
    const { by, at } = check.checked;
    return (
      <>
        <p className={styles.words}>
          <b>
            {nameOf(by)} agrees, {clock(at)}.
          </b>{' '}
          It holds until {clock(holdsUntil)}, for this fill alone.
        </p>
        {children({ id: check.fillId, at: () => Math.max(serverClock.now(), at) })}
      </>
    );
  }
  return (
    <section className={styles.words} aria-label="Second person">
      <p className={styles.stopAt}>
        <b>Two people look at this bag.</b> {orderedAdditivesWords(additives)}
      </p>
      {check === null && (
        <p>A second person checks patient, bag, additive and amount, here or from their own screen.</p>
      )}
      {check?.checked && (
        <p>
          {check.checked.agrees
            ? `The check of ${clock(check.checked.at)} is older than ${policy.settings.secondPersonMinutes} min.`
            : `${nameOf(check.checked.by)} found a difference: ${check.checked.note}. Call the physician or the pharmacy.`}
        </p>
      )}
      {check !== null && check.checked === null ? (
        <>
          <p>
            <b>Waits for a second person since {clock(check.askedAt)}.</b> The board shows it to everybody on the ward.
          </p>
          <SecondPersonHere key={check.askedId} check={check} />
          <Acts>{askButton('Ask anew', 'side')}</Acts>
        </>
      ) : (
        <Acts>{askButton(check === null ? 'Ask a second person' : 'Ask anew')}</Acts>
      )}
    </section>
  );
};
