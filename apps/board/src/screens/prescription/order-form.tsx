import type { OrderContent, WardSettings } from '@slackwater/domain';
import { orderProblems } from '@slackwater/domain/prescription/order-problems';
import { serverClock } from '../../api/clock.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Choice } from '../../ui/choice.tsx';
import { readDigits } from '../../ui/digits.ts';
import { Field } from '../../ui/field.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { act } from '../bedside/model/batch.ts';
import formStyles from '../bedside/shared/form.module.css';
import { FormDialog } from '../bedside/shared/form-dialog.tsx';
import { InstantField } from '../bedside/shared/instant-field.tsx';
import { EMPTY_INSTANT, readInstant, typedFrom } from '../bedside/shared/typed-instant.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import type { Recorder } from '../bedside/shared/use-record.ts';
import { orderWords } from '../patient-record/words/entry-words.ts';
import { type AdditiveDraft, readAdditives } from './additive-draft.ts';
import { AdditiveFields } from './additive-fields.tsx';
import { IcodextrinCaution } from './icodextrin-caution.tsx';
import { orderWarnings } from './order-warnings.ts';
import { readDuration } from './read-duration.ts';
import { SolutionSelect } from './solution-select.tsx';
import {
  missingOfTelephone,
  NO_TELEPHONE,
  type TelephoneDraft,
  TelephoneFields,
  telephoneOf,
} from './telephone-fields.tsx';

type What = OrderContent['what'];

const WHAT: readonly { value: What; label: string }[] = [
  { value: 'drainNow', label: 'Drain now' },
  { value: 'dueAt', label: 'Drain at another time' },
  { value: 'drainAndStayEmpty', label: 'Drain and stay empty' },
  { value: 'oneExchange', label: 'One exchange' },
  { value: 'rinse', label: 'Rinse' },
  { value: 'sample', label: 'Sample' },
  { value: 'partialDrain', label: 'Partial drain' },
];

const VOLUME = { least: 1, most: 5000, unit: 'mL' };
const RINSES = { least: 1, most: 20, unit: 'times' };

type OrderDraft = {
  what: What | null;
  from: typeof EMPTY_INSTANT;
  until: typeof EMPTY_INSTANT;
  solutionId: string;
  volume: string;
  rinses: string;
  dwell: string;
  text: string;
  additives: readonly AdditiveDraft[];
  note: string;
} & TelephoneDraft;

type OrderFormProps = { patient: PatientContext; recorder: Recorder; onClose: () => void };

/** A one-off order beside the prescription; by telephone with read-back where the person is no physician. */
export const OrderForm = ({ patient, recorder, onClose }: OrderFormProps) => {
  const { policy, patientId, ward, mayDo, clock } = patient;
  const byTelephone = !mayDo('prescribe');
  const today = typedFrom(serverClock.now(), ward.zone).date;
  const [draft, setDraft, forget] = useDraft<OrderDraft>(`order:${patientId}`, {
    what: null,
    from: { ...EMPTY_INSTANT, date: today },
    until: { ...EMPTY_INSTANT, date: today },
    solutionId: '',
    volume: '',
    rinses: '1',
    dwell: '',
    text: '',
    additives: [],
    note: '',
    ...NO_TELEPHONE,
  });
  const change = (part: Partial<OrderDraft>) => setDraft({ ...draft, ...part });
  const content = readOrder(draft, ward.zone, policy.settings);
  const telephone = byTelephone ? telephoneOf(draft) : null;
  const payload = content && { content, note: draft.note.trim() || null, telephone };
  const problem = payload ? (orderProblems(payload, policy)[0]?.message ?? null) : null;
  const missing = [
    draft.what === null ? 'what' : content ? null : 'its figures',
    ...(byTelephone ? missingOfTelephone(draft) : []),
  ].filter((one) => one !== null);

  const warnings = content ? orderWarnings(content, patient) : [];

  const give = async () => {
    if (payload && (await recorder.record([act('ordered', payload, serverClock.now())], null))) {
      forget();
      onClose();
    }
  };

  const needsSolution = draft.what === 'oneExchange' || draft.what === 'rinse';
  const needsVolume = needsSolution || draft.what === 'partialDrain';
  return (
    <FormDialog
      title={byTelephone ? 'Order by telephone' : 'New order'}
      action="Give the order"
      disabledBecause={
        recorder.sending ? 'being sent' : missing.length > 0 ? `missing: ${missing.join(', ')}` : problem
      }
      onAct={() => void give()}
      onClose={onClose}
    >
      <Choice label="What" layout="apart" value={draft.what} onChange={(what) => change({ what })} options={WHAT} />
      {(draft.what === 'dueAt' || draft.what === 'drainAndStayEmpty') && (
        <InstantField label="Drain by" typed={draft.from} onTyped={(from) => change({ from })} zone={ward.zone} />
      )}
      {draft.what === 'drainAndStayEmpty' && (
        <InstantField label="Empty until" typed={draft.until} onTyped={(until) => change({ until })} zone={ward.zone} />
      )}
      <div className={formStyles.two}>
        {needsSolution && (
          <SolutionSelect
            label="Strength"
            value={draft.solutionId}
            formulary={policy.formulary}
            onChange={(solutionId) => change({ solutionId })}
          />
        )}
        {needsVolume && (
          <NumberField label="Volume" typed={draft.volume} onTyped={(volume) => change({ volume })} {...VOLUME} />
        )}
        {draft.what === 'rinse' && (
          <NumberField label="Rinses" typed={draft.rinses} onTyped={(rinses) => change({ rinses })} {...RINSES} />
        )}
        {(draft.what === 'oneExchange' || draft.what === 'sample') && (
          <Field
            label={draft.what === 'sample' ? 'After a dwell of' : 'Dwell, empty = as prescribed'}
            value={draft.dwell}
            onChange={(dwell) => change({ dwell })}
            hint="like 4 h"
            problem={
              readDuration(draft.dwell, policy.settings.dwellLeastMinutes, policy.settings.dwellMostMinutes).problem
            }
          />
        )}
      </div>
      {draft.what === 'sample' && (
        <Field label="What sample" value={draft.text} onChange={(text) => change({ text })} maxLength={200} />
      )}
      {draft.what === 'oneExchange' && (
        <AdditiveFields
          of="this exchange"
          additives={draft.additives}
          settings={policy.settings}
          onChange={(additives) => change({ additives })}
        />
      )}
      {needsSolution && (
        <IcodextrinCaution
          state={patient.state}
          allergy={patient.view.patient.allergy}
          solutionIds={[draft.solutionId]}
          policy={policy}
        />
      )}
      {warnings.map((words) => (
        <p key={words}>
          <b>{words}</b>
        </p>
      ))}
      <Field label="In words" value={draft.note} onChange={(note) => change({ note })} maxLength={2000} />
      {byTelephone && (
        <TelephoneFields
          draft={draft}
          onChange={change}
          words={content && orderWords(content, { clock, formulary: policy.formulary })}
          countersignHours={policy.settings.countersignHours}
        />
      )}
    </FormDialog>
  );
};

/** The form as an order; null while something in it is missing. */
const readOrder = (draft: OrderDraft, zone: string, settings: WardSettings): OrderContent | null => {
  const from = readInstant(draft.from, zone).at;
  const until = readInstant(draft.until, zone).at;
  const volumeMl = readDigits(draft.volume, VOLUME).value;
  const rinses = readDigits(draft.rinses, RINSES).value;
  const dwell = readDuration(draft.dwell, settings.dwellLeastMinutes, settings.dwellMostMinutes);
  const additives = readAdditives(draft.additives, settings);
  const { solutionId } = draft;
  switch (draft.what) {
    case null:
      return null;
    case 'drainNow':
      return { what: 'drainNow' };
    case 'dueAt':
      return from === null ? null : { what: 'dueAt', dueAt: from };
    case 'drainAndStayEmpty':
      return from === null || until === null ? null : { what: 'drainAndStayEmpty', drainBy: from, emptyUntil: until };
    case 'oneExchange':
      return solutionId === '' || volumeMl === null || dwell.problem !== null || additives === null
        ? null
        : {
            what: 'oneExchange',
            solutionId,
            fillMl: volumeMl,
            dwellMinutes: dwell.minutes,
            additives,
          };
    case 'rinse':
      return solutionId === '' || volumeMl === null || rinses === null
        ? null
        : { what: 'rinse', solutionId, volumeMl, rinses };
    case 'sample':
      return dwell.minutes === null || draft.text.trim() === ''
        ? null
        : { what: 'sample', dwellMinutes: dwell.minutes, sample: draft.text.trim() };
    case 'partialDrain':
      return volumeMl === null ? null : { what: 'partialDrain', volumeMl };
  }
};
