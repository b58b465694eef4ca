import type { EntryKind, Payloads } from '@slackwater/domain';
import { fluidToTell } from '@slackwater/domain/cavity/fluid-handover';
import { bagFor } from '@slackwater/domain/prescription/bag-for';
import { leavesAgainst, type StayEmpty, stayEmptyOf, stayEmptyWords } from '@slackwater/domain/prescription/stay-empty';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { Link } from 'react-router';
import { useDraft } from '../../drafts/use-draft.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { Facts } from '../bedside/shared/facts.tsx';
import { InstantField } from '../bedside/shared/instant-field.tsx';
import { EMPTY_INSTANT, readInstant, type TypedInstant, typedFrom } from '../bedside/shared/typed-instant.ts';
import { fluidFacts } from '../patient-record/words/fluid-words.ts';
import { Card } from './card.tsx';
import styles from './observations.module.css';
import type { Observing } from './observe-context.ts';

/** Off the ward with what is inside, and back: the countdown goes on either way. */
export const OffWardCard = ({ observing }: { observing: Observing }) =>
  observing.patient.state.stay?.offWard ? <Back observing={observing} /> : <Leaves observing={observing} />;

type LeavingDraft = { where: string | null; back: TypedInstant | null; reason?: string; physician?: string };
const NOTHING_TYPED: LeavingDraft = { where: null, back: null };

/** What an order to go to theatre or imaging says stands there already: leaving is one touch. */
const Leaves = ({ observing }: { observing: Observing }) => {
  const { patient, keep, at } = observing;
  const { ward, state, clock, patientId, policy } = patient;
  const [draft, setDraft, forget] = useDraft<LeavingDraft>(`off-ward:${patientId}`, NOTHING_TYPED);
  const plan = stayEmptyOf(state);
  const planned = plan?.away ?? null;
  const where = draft.where ?? planned?.where ?? '';
  const typed = draft.back ?? (planned && planned.backAt > at() ? typedFrom(planned.backAt, ward.zone) : EMPTY_INSTANT);
  const back = readInstant(typed, ward.zone);
  const against = leavesAgainst(state, at());
  const fluid = against && fluidToTell(state);
  const reason = (draft.reason ?? '').trim();
  const undrained = against ? { reason, physician: (draft.physician ?? '').trim() || null } : null;
  const backMissing = back.problem && (back.two ? 'which of the two times?' : 'the time is not possible');
  return (
    <Card
      observing={observing}
      title="Leaves the ward"
      action={`${against ? 'With fluid inside, off' : 'Off'} the ward${planned && draft.where === null ? `: ${planned.where}` : ''}`}
      missing={
        where.trim() === '' ? 'where to?' : (backMissing ?? (against && reason === '' ? 'why not drained?' : null))
      }
      onKeep={async () => {
        if (await keep('leftWard', { where: where.trim(), backAbout: back.at, ...(undrained && { undrained }) }))
          forget();
      }}
    >
      {plan && (
        <p>
          By order: <b>{stayEmptyWords(plan, state.cavity, clock)}</b>
          {planned && ` (${planned.why})`}.
        </p>
      )}
      <Field label="Where to" value={where} onChange={(next) => setDraft({ ...draft, where: next })} maxLength={200} />
      <InstantField
        label="Back about, if known"
        typed={typed}
        onTyped={(next) => setDraft({ ...draft, back: next })}
        zone={ward.zone}
      />
      {fluid && (
        <section className={styles.undrained} aria-label="Not drained">
          <h3>Not drained: the order is to leave empty</h3>
          <Facts facts={fluidFacts(fluid, { clock, formulary: policy.formulary })} />
          <p>
            <Link to={paths.bedside(patientId)}>Drain first</Link>
          </p>
          <Field
            label="Leaves with this inside: why"
            value={draft.reason ?? ''}
            onChange={(next) => setDraft({ ...draft, reason: next })}
            maxLength={500}
          />
          <Field
            label="Physician, if one said so"
            value={draft.physician ?? ''}
            onChange={(next) => setDraft({ ...draft, physician: next })}
            maxLength={120}
          />
        </section>
      )}
      {!plan && (
        <p>
          <Link to={paths.prescription(patientId)}>Plan theatre or imaging: drain before, stay empty</Link>
        </p>
      )}
    </Card>
  );
};

/** Back on the ward: what comes next is said, and an order to stay empty may end with the return. */
const Back = ({ observing }: { observing: Observing }) => {
  const { patient, keep, keepAll, sending, closed } = observing;
  const { state, clock } = patient;
  const plan = stayEmptyOf(state);
  const away = state.stay?.offWard;
  if (!away) return null;
  return (
    <Card
      observing={observing}
      title="Off the ward"
      last={`${away.where}, since ${clock(away.since)}`}
      action={plan ? 'Back: the order to stay empty ends' : 'Back on the ward'}
      missing={null}
      onKeep={() => void keepAll(plan ? [RETURNED, ended(plan)] : [RETURNED])}
    >
      <p>
        {away.backAbout === null
          ? 'No time was given for the return.'
          : `Expected back about ${clock(away.backAbout)}.`}
      </p>
      <p>
        Next: <b>{nextWords(patient)}</b>
      </p>
      {plan && (
        <Button onPress={() => void keep('returned', {})} disabledBecause={closed ?? (sending ? 'being sent' : null)}>
          {state.cavity.state === 'empty' ? `Back: stays empty until ${clock(plan.until)}` : 'Back: the order stays'}
        </Button>
      )}
    </Card>
  );
};

type Untimed<K extends EntryKind> = { kind: K; payload: Payloads[K] };

const RETURNED: Untimed<'returned'> = { kind: 'returned', payload: {} };

const ended = ({ orderId }: StayEmpty): Untimed<'orderEnded'> => ({
  kind: 'orderEnded',
  payload: { orderId, why: 'done', reason: 'Back on the ward' },
});

const WORD = { drain: 'drain', fill: 'fill', review: 'review of the hold' } as const;

/** What is due next, with the bag of a fill: "fill of 2,000 mL 2.5 %, due 15:30". */
const nextWords = ({ state, policy, clock }: Observing['patient']): string => {
  if (state.due === null) return 'nothing is due';
  const bag = state.due.what === 'fill' ? bagFor(state, policy) : null;
  const strength = solutionOf(policy.formulary, bag?.solutionId ?? null)?.strength ?? bag?.solutionId;
  return `${WORD[state.due.what]}${bag ? ` of ${formatMl(bag.fillMl)} ${strength}` : ''}, due ${clock(state.due.dueAt)}`;
};
