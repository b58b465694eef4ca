import type { StandingCaution } from '@slackwater/domain';
import { STANDING_CAUTIONS } from '@slackwater/domain/caution/caution';
import { icodextrinCaution } from '@slackwater/domain/caution/icodextrin';
import { CAUTION_WORDS } from '@slackwater/domain/caution/words';
import { useState } from 'react';
import { useDraft } from '../../drafts/use-draft.ts';
import { useMinute } from '../../live/now.ts';
import { Choice } from '../../ui/choice.tsx';
import { readDigits } from '../../ui/digits.ts';
import { Field } from '../../ui/field.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { Card } from './card.tsx';
import { DecimalField } from './decimal-field.tsx';
import { GlucoseFields, NO_GLUCOSE, readGlucose } from './glucose-fields.tsx';
import styles from './observations.module.css';
import type { Observing } from './observe-context.ts';
import { APART_KG, isOddWeight } from './odd-weight.ts';
import { readDecimal } from './read-decimal.ts';

const WEIGHT = { least: 1, most: 350, unit: 'kg' };
const PRESSURE = { least: 20, most: 280, unit: 'mmHg' };
const CELSIUS = { least: 30, most: 43, unit: '°C' };

/** Weight says whether the cavity was full or empty: two litres are two kilograms. */
export const WeightCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const [draft, setDraft, forget] = useDraft(`weight:${patient.patientId}`, {
    kg: '',
    cavity: null as 'full' | 'empty' | null,
  });
  const [asked, setAsked] = useState<number | null>(null);
  const weightKg = readDecimal(draft.kg, WEIGHT).value;
  const last = patient.state.weight;
  const isOdd = weightKg !== null && isOddWeight(weightKg, last?.weightKg ?? null);
  const asking = isOdd && asked === weightKg;
  return (
    <Card
      observing={observing}
      title="Weight"
      last={last && `${last.weightKg} kg ${last.cavity}, ${patient.clock(last.at)}`}
      action={weightKg === null ? 'Keep the weight' : `${asking ? 'Yes, keep' : 'Keep'} ${weightKg} kg`}
      missing={weightKg === null ? 'the weight is missing' : draft.cavity === null ? 'full or empty?' : null}
      onKeep={async () => {
        if (isOdd && !asking) return setAsked(weightKg);
        if (weightKg !== null && draft.cavity && (await keep('weight', { weightKg, cavity: draft.cavity }))) forget();
      }}
    >
      <div className={styles.row}>
        <DecimalField label="Weight" typed={draft.kg} onTyped={(kg) => setDraft({ ...draft, kg })} {...WEIGHT} />
        <Choice
          label="Cavity"
          value={draft.cavity}
          onChange={(cavity) => setDraft({ ...draft, cavity })}
          options={[
            { value: 'full', label: 'Full' },
            { value: 'empty', label: 'Empty' },
          ]}
        />
      </div>
      {asking && last && (
        <p className={styles.caution} role="alert">
          <b>
            {weightKg} kg after {last.weightKg} kg: right?
          </b>{' '}
          Over {APART_KG} kg apart: read the scale again.
        </p>
      )}
    </Card>
  );
};

export const PressureCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const [draft, setDraft, forget] = useDraft(`pressure:${patient.patientId}`, {
    systolic: '',
    diastolic: '',
    position: null as 'lying' | 'sitting' | 'standing' | null,
  });
  const systolicMmHg = readDigits(draft.systolic, PRESSURE).value;
  const diastolicMmHg = readDigits(draft.diastolic, PRESSURE).value;
  const last = patient.state.bloodPressure;
  const turned = systolicMmHg !== null && diastolicMmHg !== null && diastolicMmHg >= systolicMmHg;
  return (
    <Card
      observing={observing}
      title="Blood pressure"
      last={last && `${last.systolicMmHg}/${last.diastolicMmHg}, ${patient.clock(last.at)}`}
      action="Keep the blood pressure"
      missing={
        systolicMmHg === null || diastolicMmHg === null ? 'two figures' : turned ? 'the lower figure goes second' : null
      }
      onKeep={async () => {
        if (systolicMmHg === null || diastolicMmHg === null) return;
        if (await keep('bloodPressure', { systolicMmHg, diastolicMmHg, position: draft.position })) forget();
      }}
    >
      <div className={styles.row}>
        <NumberField
          label="Systolic"
          typed={draft.systolic}
          onTyped={(systolic) => setDraft({ ...draft, systolic })}
          {...PRESSURE}
        />
        <NumberField
          label="Diastolic"
          typed={draft.diastolic}
          onTyped={(diastolic) => setDraft({ ...draft, diastolic })}
          {...PRESSURE}
        />
      </div>
      <Choice
        label="Position"
        value={draft.position}
        onChange={(position) => setDraft({ ...draft, position })}
        options={[
          { value: 'lying', label: 'Lying' },
          { value: 'sitting', label: 'Sitting' },
          { value: 'standing', label: 'Standing' },
        ]}
      />
    </Card>
  );
};

export const TemperatureCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const [typed, setTyped, forget] = useDraft(`temperature:${patient.patientId}`, '');
  const celsius = readDecimal(typed, CELSIUS).value;
  return (
    <Card
      observing={observing}
      title="Temperature"
      action="Keep the temperature"
      missing={celsius === null ? 'the temperature is missing' : null}
      onKeep={async () => {
        if (celsius !== null && (await keep('temperature', { celsius }))) forget();
      }}
    >
      <DecimalField label="Temperature" typed={typed} onTyped={setTyped} {...CELSIUS} />
    </Card>
  );
};

/** Icodextrin falsely raises meters that use GDH-PQQ: the meter stands with the figure, and the caution beside it. */
export const GlucoseCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const [draft, setDraft, forget] = useDraft(`glucose:${patient.patientId}`, NO_GLUCOSE);
  const glucoseMmolPerL = readGlucose(draft);
  const icodextrin = icodextrinCaution(patient.state, useMinute(), patient.policy);
  const last = patient.state.glucose;
  return (
    <Card
      observing={observing}
      title="Blood glucose"
      last={last && `${last.glucoseMmolPerL} mmol/L, ${patient.clock(last.at)}`}
      action={glucoseMmolPerL === null ? 'Keep the blood glucose' : `Keep ${glucoseMmolPerL} mmol/L`}
      missing={glucoseMmolPerL === null ? 'the figure is missing' : draft.meter === null ? 'which meter?' : null}
      onKeep={async () => {
        if (glucoseMmolPerL !== null && draft.meter && (await keep('glucose', { glucoseMmolPerL, meter: draft.meter })))
          forget();
      }}
    >
      {icodextrin && (
        <p className={styles.caution}>
          <b>Icodextrin was given: glucose-specific meter only.</b> Others read falsely high until two weeks after the
          last dwell (product information).
        </p>
      )}
      <GlucoseFields draft={draft} onChange={setDraft} specificOnly={icodextrin !== null} />
    </Card>
  );
};

/** What somebody knows of the patient and no measurement tells: said here, shown in the banner of every screen. */
export const CautionCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const { cautions } = patient.state;
  const [draft, setDraft, forget] = useDraft(`caution:${patient.patientId}`, {
    about: 'diabetes' as StandingCaution,
    present: null as 'yes' | 'no' | null,
    note: '',
  });
  const said = STANDING_CAUTIONS.map((about) => {
    const word = cautions[about];
    return `${CAUTION_WORDS[about]}: ${word === null ? 'not asked' : word.present ? 'yes' : 'no'}`;
  });
  return (
    <Card
      observing={observing}
      title="Standing cautions"
      last={said.join(', ')}
      action="Keep the caution"
      missing={draft.present === null ? 'yes or no?' : null}
      onKeep={async () => {
        if (draft.present === null) return;
        const payload = { about: draft.about, present: draft.present === 'yes', note: draft.note.trim() || null };
        if (await keep('caution', payload)) forget();
      }}
    >
      <Choice
        label="What"
        layout="apart"
        value={draft.about}
        onChange={(about) => setDraft({ ...draft, about, present: null })}
        options={STANDING_CAUTIONS.map((value) => ({ value, label: CAUTION_WORDS[value] }))}
      />
      <Choice
        label="Does the patient have it"
        value={draft.present}
        onChange={(present) => setDraft({ ...draft, present })}
        options={[
          { value: 'yes', label: 'Yes' },
          { value: 'no', label: 'No' },
        ]}
      />
      <Field
        label="From whom, in words"
        value={draft.note}
        onChange={(note) => setDraft({ ...draft, note })}
        maxLength={2000}
      />
    </Card>
  );
};
