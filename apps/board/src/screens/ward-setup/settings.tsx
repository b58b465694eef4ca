import type { WardView } from '@slackwater/contract';
import { SETTINGS } from '@slackwater/domain/ward/settings';
import { useState } from 'react';
import { MARK_WORDS } from '../../components/mark-words.ts';
import { Field } from '../../ui/field.tsx';
import { ChangeForm } from './change-form.tsx';
import styles from './settings.module.css';
import { readTyped, SETTING_KEYS, type SettingKey, type Typed } from './typed-changes.ts';

const SECTIONS: readonly { title: string; holds: (key: SettingKey) => boolean }[] = [
  {
    title: 'Times and alerts',
    holds: (key) =>
      ['min', 'h', 'days', '%', 'of 10', 'drains', 'of 5', 'place', '°C', 'g/L'].includes(SETTINGS[key].unit),
  },
  {
    title: 'Volumes and measures',
    holds: (key) => ['mL', 'g', 'g/mL'].includes(SETTINGS[key].unit) && !isExpected(key),
  },
  { title: 'Expected ultrafiltration, adults', holds: (key) => isExpected(key) },
];

const isExpected = (key: SettingKey): boolean => key.startsWith('uf');

/** Every number of the ward with its meaning, range, default and source; changes are kept together or not at all. */
export const Settings = ({ ward, mayNot }: { ward: WardView; mayNot: string | null }) => {
  const [typed, setTyped] = useState<Typed>({});
  const { settings, version } = ward.policy;
  const { changes, problems } = readTyped(typed, settings);
  const count = Object.keys(changes).length;
  return (
    <ChangeForm
      ward={ward}
      changes={changes}
      mayNot={mayNot ?? (Object.keys(problems).length > 0 ? 'Put right what is marked first' : null)}
      action={count === 1 ? 'Keep 1 change' : `Keep ${count} changes`}
      onForget={() => setTyped({})}
      className={styles.form}
    >
      <p className={styles.lead}>
        Defaults are for adults. Go through them with the clinical lead, those from memory first: an alert says under
        which version of the settings it was raised. In force: version {version}.
      </p>
      {SECTIONS.map(({ title, holds }) => (
        <section key={title} aria-label={title}>
          <h2>{title}</h2>
          {SETTING_KEYS.filter(holds).map((key) => (
            <div key={key} className={styles.setting}>
              <Field
                label={SETTINGS[key].meaning}
                value={typed[key] ?? String(settings[key])}
                onChange={(value) => setTyped((before) => ({ ...before, [key]: value }))}
                unit={SETTINGS[key].unit}
                inputMode="decimal"
                readOnly={mayNot !== null}
                problem={problems[key]}
              />
              <p>
                <b>
                  {SETTINGS[key].min} to {SETTINGS[key].max} {SETTINGS[key].unit}
                </b>
                , default {SETTINGS[key].default}, {MARK_WORDS[SETTINGS[key].mark]}.
                {SETTINGS[key].source.toLowerCase() !== MARK_WORDS[SETTINGS[key].mark] && (
                  <span>{SETTINGS[key].source}</span>
                )}
              </p>
            </div>
          ))}
        </section>
      ))}
    </ChangeForm>
  );
};
