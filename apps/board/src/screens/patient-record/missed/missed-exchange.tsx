import type { EntryView } from '@slackwater/contract';
import type { Appearance } from '@slackwater/domain';
import { pressureQuestion } from '@slackwater/domain/exchange/pressure-first';
import { additivesWords } from '@slackwater/domain/prescription/additive-words';
import { itemWords } from '@slackwater/domain/prescription/changes';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { newId } from '../../../api/ids.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Button } from '../../../ui/button.tsx';
import { Choice, Choices } from '../../../ui/choice.tsx';
import { readDigits } from '../../../ui/digits.ts';
import { Field } from '../../../ui/field.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { composeBatch } from '../../bedside/model/batch.ts';
import { mustKeep } from '../../bedside/model/words.ts';
import { typedLotProblem } from '../../bedside/prepare/bag-details.tsx';
import { Acts } from '../../bedside/shared/acts.tsx';
import { InstantField } from '../../bedside/shared/instant-field.tsx';
import { Tick } from '../../bedside/shared/tick.tsx';
import { EMPTY_INSTANT, readInstant } from '../../bedside/shared/typed-instant.ts';
import type { PatientContext } from '../../bedside/shared/use-patient.ts';
import type { Recorder } from '../../bedside/shared/use-record.ts';
import styles from '../patient-record.module.css';
import { missedActs, stepBefore } from './missed-acts.ts';

const LOOKS: readonly { value: Appearance; label: string }[] = [
  { value: 'clear', label: 'Clear' },
  { value: 'fibrin', label: 'Fibrin' },
  { value: 'pink', label: 'Pink' },
  { value: 'bloody', label: 'Bloody' },
  { value: 'cloudy', label: 'Cloudy' },
];

type Kind = 'both' | 'drain' | 'fill';

const EMPTY = {
  kind: 'both' as Kind,
  drainStart: EMPTY_INSTANT,
  drainEnd: EMPTY_INSTANT,
  drained: '',
  drainedNotKnown: false,
  appearance: [] as readonly Appearance[],
  flow: null as 'stopped' | 'notStopped' | null,
  method: null as 'jug' | 'bagMarks' | null,
  discarded: false,
  /** What she states of the patient and the bag. It was done at the bed, or it is not entered as done. */
  patientChecked: false,
  bagChecked: false,
  runChecked: false,
  secondPerson: '',
  fillStart: EMPTY_INSTANT,
  fillEnd: EMPTY_INSTANT,
  itemId: null as string | null,
  solutionId: null as string | null,
  physician: '',
  lot: '',
  reason: '',
  filled: '',
  filledNotKnown: false,
};

type MissedExchangeProps = {
  patient: PatientContext;
  recorder: Recorder;
  entries: readonly EntryView[];
  onClose: () => void;
};

/** A whole exchange entered afterwards, with the times it had; it may go into the gap between two recorded ones. */
export const MissedExchange = ({ patient, recorder, entries, onClose }: MissedExchangeProps) => {
  const { ward, policy, state, patientId } = patient;
  const [draft, setDraft, forget] = useDraft(`missed:${patientId}`, EMPTY);
  const change = (part: Partial<typeof EMPTY>) => setDraft({ ...draft, ...part });
  const withDrain = draft.kind !== 'fill';
  const withFill = draft.kind !== 'drain';
  const at = (typed: typeof EMPTY_INSTANT) => readInstant(typed, ward.zone).at;
  const drainedRange = { least: 0, most: policy.settings.drainedMostMl, unit: 'mL' };
  const filledRange = { least: 1, most: policy.settings.filledMostMl, unit: 'mL' };
  const drainedMl = draft.drainedNotKnown ? null : readDigits(draft.drained, drainedRange).value;
  const filledMl = draft.filledNotKnown ? null : readDigits(draft.filled, filledRange).value;
  const [drainStart, drainEnd, fillStart, fillEnd] = [
    at(draft.drainStart),
    at(draft.drainEnd),
    at(draft.fillStart),
    at(draft.fillEnd),
  ];
  const times = [withDrain ? [drainStart, drainEnd] : [], withFill ? [fillStart, fillEnd] : []].flat();
  const inOrder = times.every((one, index) => index === 0 || (one !== null && (times[index - 1] ?? 0) <= one));

  const items = state.prescription?.items ?? [];
  const item = items.find((one) => one.id === draft.itemId);
  const added = item?.additives ?? [];
  const solutionId = draft.solutionId ?? item?.solutionId ?? null;
  const other = item !== undefined && solutionId !== item.solutionId;

  const chambers = solutionOf(policy.formulary, solutionId)?.chambers ?? 1;

  const missing = [
    times.some((one) => one === null) ? 'a time' : null,
    times.every((one) => one !== null) && !inOrder ? 'times in their order' : null,
    withDrain && !draft.drainedNotKnown && drainedMl === null ? 'the drained volume' : null,
    withDrain && !draft.drainedNotKnown && draft.method === null ? 'how it was measured' : null,
    withDrain && draft.appearance.length === 0 ? 'the appearance' : null,
    withDrain && draft.flow === null ? 'how the flow ended' : null,
    withDrain && mustKeep(draft.appearance) ? 'the bedside: a cloudy bag is finished there' : null,
    withFill && !item ? 'which prescribed exchange' : null,
    withFill && typedLotProblem(draft.lot ?? '') ? 'a lot that can be one' : null,
    withFill && other && draft.reason.trim() === '' ? 'why another fluid' : null,
    withFill && other && !patient.mayDo('overrideGuard') && draft.physician.trim() === '' ? 'the physician' : null,
    withFill && !draft.filledNotKnown && filledMl === null ? 'the filled volume' : null,
    withFill && added.length > 0 && draft.secondPerson.trim() === '' ? 'who checked what was added' : null,
    draft.patientChecked ? null : 'that the patient was checked',
    withFill && !(draft.bagChecked && draft.runChecked) ? 'that the bag was checked' : null,
  ].filter((one) => one !== null);

  const keep = async () => {
    const drain =
      withDrain && drainStart !== null && drainEnd !== null
        ? {
            startedAt: drainStart,
            endedAt: drainEnd,
            drainedMl,
            appearance: draft.appearance,
            flow: draft.flow ?? 'notStopped',
            method: draft.method ?? 'bagMarks',
            discarded: draft.discarded,
          }
        : null;
    const fill =
      withFill && fillStart !== null && fillEnd !== null && item && solutionId !== null
        ? {
            startedAt: fillStart,
            endedAt: fillEnd,
            bag: {
              solutionId,
              labelledMl: Math.max(item.fillMl, filledMl ?? 0),
              expiresOn: null,
              lot: (draft.lot ?? '').trim() || null,
              read: 'typed' as const,
            },
            chambers,
            filledMl,
            prescribedMl: item.fillMl,
            override: other ? { reason: draft.reason.trim(), physician: draft.physician.trim() || null } : null,
            revisionId: state.prescription?.id ?? null,
            itemId: item.id,
            additives: added,
            secondPerson: draft.secondPerson.trim(),
          }
        : null;
    const begins = drain?.startedAt ?? fill?.startedAt ?? 0;
    const doubt = fill && pressureQuestion(state, fill.bag.solutionId, fill.startedAt, null, policy);
    const called = doubt && {
      about: doubt.about,
      by: 'afterwards' as const,
      whom: null,
      words: 'given already, entered afterwards',
    };
    const drafts = composeBatch(missedActs({ drain, fill, called }), {
      patientId,
      visitId: newId(),
      head: stepBefore(entries, begins),
    });
    const typed = drafts.map(({ id }) => id);
    if (await recorder.send(drafts, typed)) {
      forget();
      onClose();
    }
  };

  return (
    <aside className={styles.fix} aria-labelledby="missed">
      <h2 id="missed">A missed exchange</h2>
      <Choice
        label="What was done"
        hideLabel
        value={draft.kind}
        onChange={(kind) => change({ kind })}
        options={[
          { value: 'both', label: 'Drain and fill' },
          { value: 'drain', label: 'Drain only' },
          { value: 'fill', label: 'Fill only' },
        ]}
      />
      {withDrain && (
        <>
          <InstantField
            label="Drain started"
            typed={draft.drainStart}
            onTyped={(drainStart) => change({ drainStart })}
            zone={ward.zone}
          />
          <InstantField
            label="Drain ended"
            typed={draft.drainEnd}
            onTyped={(drainEnd) => change({ drainEnd })}
            zone={ward.zone}
          />
          {!draft.drainedNotKnown && (
            <NumberField
              label="Drained, without flush"
              typed={draft.drained}
              onTyped={(drained) => change({ drained })}
              {...drainedRange}
            />
          )}
          {!draft.drainedNotKnown && (
            <Choice
              label="Measured by"
              value={draft.method}
              onChange={(method) => change({ method })}
              options={[
                { value: 'bagMarks', label: 'Bag marks' },
                { value: 'jug', label: 'Measuring jug' },
              ]}
            />
          )}
          <Tick checked={draft.drainedNotKnown} onChange={(drainedNotKnown) => change({ drainedNotKnown })}>
            Volume not known: the dwell stays incomplete
          </Tick>
          <Choices
            label="Appearance"
            options={LOOKS}
            values={draft.appearance}
            onChange={(appearance) => change({ appearance })}
          />
          <Choice
            label="How the flow ended"
            value={draft.flow}
            onChange={(flow) => change({ flow })}
            options={[
              { value: 'stopped', label: 'It ran to a stop' },
              { value: 'notStopped', label: 'Ended while it ran, or not known' },
            ]}
          />
          <Tick checked={draft.discarded} onChange={(discarded) => change({ discarded })}>
            The drain bag was discarded
          </Tick>
        </>
      )}
      {withFill && (
        <>
          <InstantField
            label="Fill started"
            typed={draft.fillStart}
            onTyped={(fillStart) => change({ fillStart })}
            zone={ward.zone}
          />
          <InstantField
            label="Fill ended"
            typed={draft.fillEnd}
            onTyped={(fillEnd) => change({ fillEnd })}
            zone={ward.zone}
          />
          <Choice
            label={
              items.length > 0 ? 'Which prescribed exchange it was' : 'Nothing is prescribed: a fill cannot be entered'
            }
            layout="apart"
            value={draft.itemId}
            onChange={(itemId) => change({ itemId, solutionId: null })}
            options={items.map((one) => ({ value: one.id, label: itemWords(one, policy.formulary) }))}
          />
          {item && (
            <Choice
              label="What ran in"
              layout="apart"
              value={solutionId}
              onChange={(next) => change({ solutionId: next })}
              options={policy.formulary.map((solution) => ({ value: solution.id, label: solution.strength }))}
            />
          )}
          {item && (
            <Field
              label="Lot, if somebody read it"
              value={draft.lot ?? ''}
              onChange={(lot) => change({ lot })}
              autoComplete="off"
              maxLength={60}
              problem={typedLotProblem(draft.lot ?? '')}
            />
          )}
          {other && (
            <>
              <Field
                label="Why another fluid"
                value={draft.reason}
                onChange={(reason) => change({ reason })}
                maxLength={500}
              />
              <Field
                label="Physician who said so"
                value={draft.physician}
                onChange={(physician) => change({ physician })}
                maxLength={120}
              />
            </>
          )}
          {added.length > 0 && (
            <Field
              label={`In the bag: ${additivesWords(added)}. Second person who checked it`}
              value={draft.secondPerson}
              onChange={(secondPerson) => change({ secondPerson })}
              maxLength={120}
            />
          )}
          {!draft.filledNotKnown && (
            <NumberField
              label="Went in"
              typed={draft.filled}
              onTyped={(filled) => change({ filled })}
              {...filledRange}
            />
          )}
          <Tick checked={draft.filledNotKnown} onChange={(filledNotKnown) => change({ filledNotKnown })}>
            Volume not known
          </Tick>
        </>
      )}
      <Tick checked={draft.patientChecked} onChange={(patientChecked) => change({ patientChecked })}>
        Name and birth date were checked against the wristband
      </Tick>
      {withFill && (
        <>
          <Tick checked={draft.bagChecked} onChange={(bagChecked) => change({ bagChecked })}>
            The bag was checked: in date, no leak, clear, warmed, seal whole{chambers > 1 && ', chambers mixed'}
          </Tick>
          <Tick checked={draft.runChecked} onChange={(runChecked) => change({ runChecked })}>
            The outlet seal was broken, and no leak was seen
          </Tick>
        </>
      )}
      <p className="quiet">
        You sign what you tick. What nobody can state is not entered as done: keep it on paper and tell the charge
        nurse.
      </p>
      <Acts>
        <Button
          tone="main"
          onPress={() => void keep()}
          disabledBecause={
            recorder.sending ? 'being sent' : missing.length > 0 ? `missing: ${missing.join(', ')}` : null
          }
        >
          Enter it{drainedMl !== null && withDrain ? `: drained ${formatMl(drainedMl)}` : ''}
        </Button>
        <Button onPress={onClose}>Back</Button>
      </Acts>
    </aside>
  );
};
