import type { Solution, WardSettings } from '@slackwater/domain';
import { isClockTime } from '@slackwater/domain/time/zone';
import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { cx } from '../../ui/class-names.ts';
import { Field } from '../../ui/field.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { AdditiveFields } from './additive-fields.tsx';
import styles from './prescription.module.css';
import { fillRange, type ItemDraft, minutesRange } from './prescription-draft.ts';
import { readDuration } from './read-duration.ts';
import { SolutionSelect } from './solution-select.tsx';

type ItemFieldsProps = {
  number: number;
  item: ItemDraft;
  formulary: readonly Solution[];
  settings: WardSettings;
  changed: boolean;
  onChange: (item: ItemDraft) => void;
  onRemove: (() => void) | null;
};

/** One exchange of the new revision. A changed one has a heavy frame. */
export const ItemFields = ({ number, item, formulary, settings, changed, onChange, onRemove }: ItemFieldsProps) => {
  const set = (part: Partial<ItemDraft>) => onChange({ ...item, ...part });
  const [opened, setOpened] = useState(false);
  const more = opened || item.additives.length > 0 || item.condition !== '';
  const setCycle = (part: Partial<ItemDraft['cycle']>) => set({ cycle: { ...item.cycle, ...part } });
  return (
    <div className={cx(changed && styles.changed)}>
      <div className={styles.fields}>
        <SolutionSelect
          label={`Strength of exchange ${number}`}
          value={item.solutionId}
          formulary={formulary}
          onChange={(solutionId) => set({ solutionId })}
        />
        <NumberField
          label={`Fill ${number}`}
          typed={item.fill}
          onTyped={(fill) => set({ fill })}
          {...fillRange(settings)}
        />
        {item.by === 'length' && (
          <Field
            label={`Dwell ${number}`}
            value={item.length}
            onChange={(length) => set({ length })}
            hint={item.length === '' && 'like 4 h 30 min'}
            problem={readDuration(item.length, settings.dwellLeastMinutes, settings.dwellMostMinutes).problem}
          />
        )}
        {item.by === 'clock' && (
          <Field
            label={`Fill ${number} at`}
            value={item.clock}
            onChange={(clock) => set({ clock })}
            hint={item.clock === '' && 'like 07:30'}
            problem={item.clock === '' || isClockTime(item.clock) ? null : `“${item.clock}”: write 00:00 to 23:59.`}
          />
        )}
      </div>
      {item.by === 'cycle' && (
        <div className={styles.fields}>
          <NumberField
            label="Fill time"
            typed={item.cycle.fill}
            onTyped={(fill) => setCycle({ fill })}
            {...minutesRange}
          />
          <NumberField
            label="Dwell"
            typed={item.cycle.dwell}
            onTyped={(dwell) => setCycle({ dwell })}
            {...minutesRange}
          />
          <NumberField
            label="Drain time"
            typed={item.cycle.drain}
            onTyped={(drain) => setCycle({ drain })}
            {...minutesRange}
          />
        </div>
      )}
      {more && (
        <AdditiveFields
          of={`exchange ${number}`}
          additives={item.additives}
          settings={settings}
          onChange={(additives) => set({ additives })}
        />
      )}
      {more && (
        <div className={styles.more}>
          <Field
            label="Choice left to the bedside"
            value={item.condition}
            onChange={(condition) => set({ condition })}
            maxLength={200}
            hint="like: over 72 kg: 2.5 %"
          />
          <NumberField
            label="May move by, ±"
            typed={item.window}
            onTyped={(window) => set({ window })}
            least={0}
            most={240}
            unit="min"
          />
        </div>
      )}
      <div className={styles.row}>
        <Choice
          label={`Dwell of exchange ${number} by`}
          hideLabel
          value={item.by}
          onChange={(by) => set({ by })}
          options={[
            { value: 'length', label: 'Length' },
            { value: 'clock', label: 'Clock' },
            { value: 'cycle', label: 'Cycle' },
          ]}
        />
        {!more && (
          <Button tone="text" onPress={() => setOpened(true)}>
            Additives, choice, window
          </Button>
        )}
        <Button tone="text" onPress={() => onRemove?.()} disabledBecause={onRemove ? null : 'the last one'}>
          Take out
        </Button>
      </div>
    </div>
  );
};
