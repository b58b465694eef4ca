import type { WardSettings } from '@slackwater/domain';
import { Choice } from '../../ui/choice.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { DecimalField } from '../observations/decimal-field.tsx';
import { type LimitsDraft, limitRanges } from './limits-draft.ts';
import styles from './prescription.module.css';

type LimitFieldsProps = {
  draft: LimitsDraft;
  settings: WardSettings;
  onChange: (draft: LimitsDraft) => void;
};

/** The limits for this patient. An empty line sets none. */
export const LimitFields = ({ draft, settings, onChange }: LimitFieldsProps) => {
  const set = (part: Partial<LimitsDraft>) => onChange({ ...draft, ...part });
  const ranges = limitRanges(settings);
  return (
    <section className={styles.limits} aria-labelledby="limits">
      <h3 id="limits">
        Limits <span className="quiet">an empty line sets none</span>
      </h3>
      <div className={styles.limitFields}>
        <NumberField
          label="Most inside"
          typed={draft.mostInside}
          onTyped={(mostInside) => set({ mostInside })}
          {...ranges.mostInside}
        />
        <NumberField
          label="Systolic, lowest"
          typed={draft.systolicLow}
          onTyped={(systolicLow) => set({ systolicLow })}
          {...ranges.systolic}
        />
        <NumberField
          label="Systolic, highest"
          typed={draft.systolicHigh}
          onTyped={(systolicHigh) => set({ systolicHigh })}
          {...ranges.systolic}
        />
        <NumberField
          label="Removed, at most"
          typed={draft.overRemoval}
          onTyped={(overRemoval) => set({ overRemoval })}
          {...ranges.overRemoval}
        />
        <NumberField
          label="within"
          typed={draft.overRemovalHours}
          onTyped={(overRemovalHours) => set({ overRemovalHours })}
          {...ranges.overRemovalHours}
        />
        <DecimalField
          label="Target weight"
          typed={draft.weightTarget}
          onTyped={(weightTarget) => set({ weightTarget })}
          {...ranges.weightTarget}
        />
        {draft.weightTarget.trim() !== '' && (
          <Choice
            label="Weighed with the cavity"
            value={draft.weightCavity}
            onChange={(weightCavity) => set({ weightCavity })}
            options={[
              { value: 'full', label: 'Full' },
              { value: 'empty', label: 'Empty' },
            ]}
          />
        )}
      </div>
    </section>
  );
};
