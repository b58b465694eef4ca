import type { Payloads } from '@slackwater/domain';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Choice } from '../../../ui/choice.tsx';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import { EMPTY_INFUSED, InfusedFields, readInfused, useFillBag } from '../fill/infused-fields.tsx';
import { act } from '../model/batch.ts';
import { FormDialog } from '../shared/form-dialog.tsx';
import { Tick } from '../shared/tick.tsx';
import { Ago, useAgo } from '../shared/when.tsx';

type Reason = Payloads['stop']['reason'];

const REASONS: readonly { value: Reason; label: string }[] = [
  { value: 'pain', label: 'Pain' },
  { value: 'breathless', label: 'Breathless' },
  { value: 'noFlow', label: 'No flow' },
  { value: 'leak', label: 'Leak' },
  { value: 'sterilityBroken', label: 'Sterility broken' },
  { value: 'patientAsked', label: 'Patient asked' },
  { value: 'calledAway', label: 'Called away' },
  { value: 'other', label: 'Other' },
];

const EMPTY = {
  reason: null as Reason | null,
  note: '',
  infused: EMPTY_INFUSED,
  kind: null as 'wet' | 'dry' | null,
  clamped: false,
  setChanged: false,
  physicianTold: false,
};

/** Ends the visit at any stage, with the reason. What ran ends with what is known of it, never with a guess. */
export const StopDialog = () => {
  const { state, policy, record, sending, back } = useBedside();
  const visit = state.visit;
  const bag = useFillBag();
  const [draft, setDraft, forget] = useDraft(`stop:${visit?.id ?? ''}`, EMPTY);
  const change = (part: Partial<typeof EMPTY>) => setDraft({ ...draft, ...part });
  const ago = useAgo(visit?.since ?? null);
  const infused = bag ? readInfused(draft.infused, bag, policy.settings.filledMostMl) : null;
  const broken = draft.reason === 'sterilityBroken';

  const missing = [
    draft.reason === null ? 'the reason' : null,
    draft.reason === 'other' && draft.note.trim() === '' ? 'words' : null,
    bag && !infused ? 'how much went in' : null,
    broken && draft.kind === null ? 'wet or dry' : null,
    broken && !draft.clamped ? 'the clamp' : null,
  ].filter((one) => one !== null);

  const stop = async () => {
    if (draft.reason === null) return;
    const contamination =
      broken && draft.kind !== null
        ? { kind: draft.kind, clamped: draft.clamped, setChanged: draft.setChanged, physicianTold: draft.physicianTold }
        : null;
    const payload = { reason: draft.reason, note: draft.note.trim() || null, infused, contamination };
    const at = ago.at();
    // One statement, two places: the visit's end, and the catheter's history, in which the set's age is counted.
    const changedSet =
      contamination?.setChanged === true
        ? [
            act(
              'catheter',
              {
                event: 'setChanged',
                note: `after broken sterility, ${contamination.kind}`,
                breakInLimitMl: state.catheter?.breakInLimitMl ?? null,
                breakInUntil: state.catheter?.breakInUntil ?? null,
                breakInPosture: state.catheter?.breakInPosture ?? null,
              },
              at,
            ),
          ]
        : [];
    if (await record([act('stop', payload, at), ...changedSet])) {
      forget();
      back();
    }
  };

  return (
    <FormDialog
      title="Stop the exchange"
      action="Stop the exchange"
      disabledBecause={sending ? 'being sent' : missing.length > 0 ? `missing: ${missing.join(', ')}` : null}
      onAct={() => void stop()}
      onClose={back}
    >
      <Choice
        label="Why"
        layout="apart"
        value={draft.reason}
        onChange={(reason) => change({ reason })}
        options={REASONS}
      />
      {broken && (
        <>
          <p>
            <b>Clamp. Do not infuse. Change the set. Tell the physician.</b> Wet = the system was open or fluid ran in
            after the breach; 17 of 302 such led to peritonitis, of dry ones 0 of 246 (published cohort).
          </p>
          <Choice
            label="Which breach"
            value={draft.kind}
            onChange={(kind) => change({ kind })}
            options={[
              { value: 'wet', label: 'Wet' },
              { value: 'dry', label: 'Dry' },
            ]}
          />
          <Tick checked={draft.clamped} onChange={(clamped) => change({ clamped })}>
            Clamped
          </Tick>
          <Tick checked={draft.setChanged} onChange={(setChanged) => change({ setChanged })}>
            Transfer set changed <small>also kept as a set change of the catheter</small>
          </Tick>
          <Tick checked={draft.physicianTold} onChange={(physicianTold) => change({ physicianTold })}>
            Physician told
          </Tick>
        </>
      )}
      {draft.reason === 'breathless' && (
        <p>
          <b>Do not fill, sit up, call.</b> Breathless with a short drain is a leak into the chest until excluded
          (common practice).
        </p>
      )}
      {bag && <InfusedFields draft={draft.infused} onChange={(infused) => change({ infused })} bag={bag} noneAllowed />}
      <Field label="In words" value={draft.note} onChange={(note) => change({ note })} maxLength={2000} />
      <Ago label="Stopped" ago={ago} notBefore={visit?.since ?? serverClock.now()} />
    </FormDialog>
  );
};
