import type { Comfort, SwellingPlace } from '@slackwater/domain';
import { Choice, Choices } from '../../../ui/choice.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { type ComfortDraft, type Felt, PAIN, readComfort } from '../model/comfort-draft.ts';

const FELT: readonly { value: Felt; label: string }[] = [
  { value: 'cramp', label: 'Cramp' },
  { value: 'breathless', label: 'Breathless' },
  { value: 'leakAtExit', label: 'Leak at exit' },
  { value: 'swelling', label: 'Swelling' },
  { value: 'urine', label: 'Sudden “urine”' },
  { value: 'wateryStool', label: 'Watery stool' },
];

const PLACES: readonly { value: SwellingPlace; label: string }[] = [
  { value: 'flank', label: 'Flank' },
  { value: 'genitals', label: 'Genitals' },
  { value: 'hernia', label: 'Hernia' },
];

const PHASES: readonly { value: NonNullable<Comfort['phase']>; label: string }[] = [
  { value: 'startOfFill', label: 'As the fill starts' },
  { value: 'endOfDrain', label: 'As the drain ends' },
  { value: 'shoulder', label: 'Shoulder' },
  { value: 'newOrConstant', label: 'New or constant' },
];

type ComfortFieldsProps = {
  draft: ComfortDraft;
  onChange: (draft: ComfortDraft) => void;
  className?: string | undefined;
};

/** What the patient feels; where and when are asked only once there is something to ask about. */
export const ComfortFields = ({ draft, onChange, className }: ComfortFieldsProps) => {
  const { comfort } = readComfort(draft);
  return (
    <>
      <Choices
        label="What the patient feels"
        hideLabel
        className={className}
        options={FELT}
        values={draft.felt}
        onChange={(felt) => onChange({ ...draft, felt })}
      />
      {comfort.swelling && (
        <Choices
          label="It swells at"
          layout="apart"
          options={PLACES}
          values={draft.swellingAt}
          onChange={(swellingAt) => onChange({ ...draft, swellingAt })}
        />
      )}
      <NumberField
        label="Pain, 0 none to 10; empty: not asked"
        typed={draft.pain}
        onTyped={(pain) => onChange({ ...draft, pain })}
        {...PAIN}
      />
      {comfort.pain ? (
        <Choice
          label="It hurts"
          layout="apart"
          value={draft.painPhase}
          onChange={(painPhase) => onChange({ ...draft, painPhase })}
          options={PHASES}
        />
      ) : null}
    </>
  );
};
