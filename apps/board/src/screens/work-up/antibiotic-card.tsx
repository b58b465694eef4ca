import type { Payloads } from '@slackwater/domain';
import { antibioticsNow } from '@slackwater/domain/peritonitis/antibiotics';
import { dateAt } from '@slackwater/domain/time/zone';
import { dayNumber } from '@slackwater/domain/units/dates';
import { formatIsoDate } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../api/clock.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { Card } from '../observations/card.tsx';
import type { AtWorkUp } from './work-up-context.ts';

type Answers = Payloads['antibioticStarted']['answers'];

const NOTHING = { what: '', startedOn: '', answers: null as Answers | null, note: '' };

/** What was begun, since when, and whether the organism answers to it. No dose: that is the physician's and the pharmacy's. */
export const AntibioticCard = ({ patient, workUp, sending, closed, keep }: AtWorkUp) => {
  const [draft, setDraft, forget] = useDraft(`antibiotic:${workUp.id}`, NOTHING);
  const change = (part: Partial<typeof NOTHING>) => setDraft({ ...draft, ...part });
  const today = dateAt(serverClock.now(), patient.ward.zone);
  const startedOn = draft.startedOn.trim();
  const isDay = !Number.isNaN(dayNumber(startedOn)) && startedOn <= today;
  const given = antibioticsNow(workUp.antibiotics);
  const missing = [
    draft.what.trim() === '' ? 'which' : null,
    isDay ? null : 'the first day',
    draft.answers === null ? 'whether the organism answers' : null,
  ].filter((one) => one !== null);
  return (
    <Card
      observing={{ sending, closed }}
      title="Antibiotic"
      last={
        given.length === 0
          ? 'none recorded'
          : given.map(({ what, startedOn: since }) => `${what} since ${formatIsoDate(since)}`).join(', ')
      }
      action="Keep the antibiotic"
      missing={missing.length > 0 ? `missing: ${missing.join(', ')}` : null}
      onKeep={async () => {
        if (draft.answers === null) return;
        const said = { what: draft.what.trim(), startedOn, answers: draft.answers, note: draft.note.trim() || null };
        if (await keep('antibioticStarted', { workUpId: workUp.id, ...said })) forget();
      }}
    >
      <Field label="Which" value={draft.what} onChange={(what) => change({ what })} maxLength={120} />
      <Field
        label="First day"
        value={draft.startedOn}
        onChange={(next) => change({ startedOn: next })}
        hint={`like ${today}`}
        inputMode="numeric"
        autoComplete="off"
        problem={startedOn === '' || isDay ? null : `“${startedOn}” is no day up to today: write ${today}.`}
      />
      <Choice
        label="Does the organism answer to it"
        layout="apart"
        value={draft.answers}
        onChange={(answers) => change({ answers })}
        options={[
          { value: 'yes', label: 'Yes, by the report' },
          { value: 'no', label: 'No' },
          { value: 'notKnown', label: 'Not known yet' },
        ]}
      />
      <Field label="In words" value={draft.note} onChange={(note) => change({ note })} maxLength={2000} />
    </Card>
  );
};
