import type { WardSettings } from '@slackwater/domain';
import { ADDITIVE_KINDS, ADDITIVE_UNITS } from '@slackwater/domain/prescription/additive';
import { SETTINGS } from '@slackwater/domain/ward/settings';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { Select } from '../../ui/select.tsx';
import { type AdditiveDraft, NEW_ADDITIVE, readAmount, readLeastDwell } from './additive-draft.ts';
import styles from './prescription.module.css';

type AdditiveFieldsProps = {
  /** Of which bag: "exchange 2". */
  of: string;
  additives: readonly AdditiveDraft[];
  settings: WardSettings;
  onChange: (additives: readonly AdditiveDraft[]) => void;
};

/** What goes into one bag: a line each. The tool repeats the order and reckons no dose. */
export const AdditiveFields = ({ of, additives, settings, onChange }: AdditiveFieldsProps) => (
  <div className={styles.additives}>
    {additives.map((additive, index) => (
      <AdditiveLine
        // biome-ignore lint/suspicious/noArrayIndexKey: lines have no id of their own and are only added at the end
        key={index}
        name={`additive ${index + 1} of ${of}`}
        additive={additive}
        settings={settings}
        onChange={(part) => onChange(additives.map((one, place) => (place === index ? { ...one, ...part } : one)))}
        onRemove={() => onChange(additives.filter((_, place) => place !== index))}
      />
    ))}
    <Button tone="text" onPress={() => onChange([...additives, NEW_ADDITIVE])}>
      {additives.length === 0 ? 'Add to the bag' : 'Add another'}
    </Button>
  </div>
);

type AdditiveLineProps = {
  name: string;
  additive: AdditiveDraft;
  settings: WardSettings;
  onChange: (part: Partial<AdditiveDraft>) => void;
  onRemove: () => void;
};

const AdditiveLine = ({ name, additive, settings, onChange, onRemove }: AdditiveLineProps) => (
  <fieldset className={styles.additive}>
    <legend>{name}</legend>
    <Field label="Substance" value={additive.what} onChange={(what) => onChange({ what })} maxLength={80} />
    <Field
      label="Amount"
      value={additive.amount}
      onChange={(amount) => onChange({ amount })}
      problem={readAmount(additive.amount).problem}
      inputMode="decimal"
      autoComplete="off"
    />
    <Select
      label="Unit"
      value={additive.unit}
      options={named(ADDITIVE_UNITS)}
      onChange={(unit) => onChange({ unit })}
    />
    <Select
      label="Kind"
      value={additive.kind}
      options={named(ADDITIVE_KINDS)}
      onChange={(kind) => onChange({ kind })}
    />
    {additive.kind === 'antibiotic' && (
      <Field
        label="Must dwell at least"
        value={additive.leastDwell}
        onChange={(leastDwell) => onChange({ leastDwell })}
        problem={readLeastDwell(additive.leastDwell, settings).problem}
        hint={
          additive.leastDwell === '' ? (
            <>
              say it; 0 min in every bag.{' '}
              <Button
                tone="text"
                onPress={() => onChange({ leastDwell: formatMinutes(settings.antibioticDwellMinutes) })}
              >
                Once a day: {formatMinutes(settings.antibioticDwellMinutes)}
              </Button>{' '}
              ward setting, {SETTINGS.antibioticDwellMinutes.source}
            </>
          ) : null
        }
      />
    )}
    <Button tone="text" onPress={onRemove}>
      Take {additive.what.trim() || 'it'} out
    </Button>
  </fieldset>
);

const named = <Value extends string>(values: readonly Value[]) => values.map((value) => ({ value, label: value }));
