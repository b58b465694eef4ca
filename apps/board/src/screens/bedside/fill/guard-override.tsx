import { guardFill } from '@slackwater/domain/cavity/guard';
import { formatMl } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Choice } from '../../../ui/choice.tsx';
import { readDigits } from '../../../ui/digits.ts';
import { Field } from '../../../ui/field.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { useBedside } from '../bedside-context.ts';
import { useDespite } from '../empty/use-despite.ts';
import { wantedInVisit } from '../model/wanted.ts';
import { insideWords } from '../model/words.ts';
import formStyles from '../shared/form.module.css';
import { FormDialog } from '../shared/form-dialog.tsx';
import { startFillAct } from './fill-act.ts';

type Why = 'physician' | 'misread' | 'other';
const WHY: readonly { value: Why; label: string }[] = [
  { value: 'physician', label: 'The physician says so' },
  { value: 'misread', label: 'The bag was read wrong' },
  { value: 'other', label: 'Other, in words' },
];
const WORDS: Record<Why, string> = {
  physician: 'The physician says so',
  misread: 'The bag was read wrong',
  other: 'Other',
};

/** Filling although the guard does not offer it: by role, with a reason, both figures in the title and in the record. */
export const GuardOverride = () => {
  const { state, policy, session, record, sending, back } = useBedside();
  const visit = state.visit;
  const wanted = wantedInVisit(state, policy);
  const { despite } = useDespite(wanted?.orderId ?? null);
  const [draft, setDraft, forget] = useDraft(`guard-override:${visit?.id ?? ''}`, {
    why: null as Why | null,
    physician: '',
    words: '',
    volume: wanted ? String(wanted.fillMl) : '',
  });
  if (!visit?.bag || !wanted) return null;
  const bag = visit.bag;
  const range = { least: 1, most: wanted.fillMl, unit: 'mL' };
  const volumeMl = readDigits(draft.volume, range).value;
  const guard = guardFill(state, volumeMl ?? wanted.fillMl, policy);
  const missing = [
    draft.why ? null : 'the reason',
    draft.why === 'physician' && draft.physician.trim() === '' ? 'the physician' : null,
    draft.words.trim() ? null : 'words',
    volumeMl === null ? 'the volume' : null,
  ].filter((one) => one !== null);

  const fill = async () => {
    if (!draft.why || volumeMl === null) return;
    const guardOverride = {
      reason: `${WORDS[draft.why]}: ${draft.words.trim()}. Probably inside: ${insideWords(state.inside)}.`,
      physician: draft.physician.trim() || null,
    };
    const at = serverClock.now();
    const act = startFillAct({
      bag,
      wanted,
      prescribedMl: volumeMl,
      flushMl: policy.settings.flushMl,
      guardOverride,
      despite,
      at,
    });
    if (await record([act])) {
      forget();
      back();
    }
  };

  return (
    <FormDialog
      title={`Fill all the same? Probably inside: ${insideWords(state.inside)}`}
      action={`Sign as ${session.account.name}: fill ${volumeMl === null ? '' : formatMl(volumeMl)}`}
      disabledBecause={sending ? 'being sent' : missing.length > 0 ? `missing: ${missing.join(', ')}` : null}
      onAct={() => void fill()}
      onClose={back}
      closeWords="Back, no fill"
    >
      <p>
        {guard.peakMl === null
          ? 'The most inside during the dwell is not known.'
          : `At its fullest about ${formatMl(Math.round(guard.peakMl / 10) * 10)} inside.`}{' '}
        {state.prescription?.limits.mostInsideMl
          ? `The patient’s own limit is ${formatMl(state.prescription.limits.mostInsideMl)}.`
          : 'No limit of the patient’s own is set.'}
      </p>
      <Choice
        label="Reason"
        layout="apart"
        value={draft.why}
        onChange={(why) => setDraft({ ...draft, why })}
        options={WHY}
      />
      <div className={formStyles.two}>
        <Field
          label="Physician"
          value={draft.physician}
          onChange={(physician) => setDraft({ ...draft, physician })}
          maxLength={120}
        />
        <NumberField
          label="Volume"
          typed={draft.volume}
          onTyped={(volume) => setDraft({ ...draft, volume })}
          {...range}
        />
      </div>
      <Field
        label="In words: what was said, what was seen"
        value={draft.words}
        onChange={(words) => setDraft({ ...draft, words })}
        maxLength={300}
      />
      <p className="quiet">Stands in the record with both figures.</p>
    </FormDialog>
  );
};
