import type { Payloads, StandingCaution } from '@slackwater/domain';
import { STANDING_CAUTIONS } from '@slackwater/domain/caution/caution';
import { CAUTION_WORDS } from '@slackwater/domain/caution/words';
import { Choice } from '../../ui/choice.tsx';

/** What was answered of each caution; nobody asked is an answer, and never a no. */
export type CautionsDraft = Readonly<Record<StandingCaution, 'yes' | 'no' | 'notAsked'>>;

export const NOT_ASKED: CautionsDraft = {
  diabetes: 'notAsked',
  maltoseIntolerance: 'notAsked',
  glycogenStorageDisease: 'notAsked',
};

/** The entries of what was answered; of what nobody asked there is none. */
export const cautionsSaid = (draft: CautionsDraft): readonly Payloads['caution'][] =>
  STANDING_CAUTIONS.filter((about) => draft[about] !== 'notAsked').map((about) => ({
    about,
    present: draft[about] === 'yes',
    note: 'at admission',
  }));

type CautionsAskedProps = { draft: CautionsDraft; onChange: (draft: CautionsDraft) => void };

/** What changes the care on this ward: asked of the patient, each yes, no, or not asked. */
export const CautionsAsked = ({ draft, onChange }: CautionsAskedProps) =>
  STANDING_CAUTIONS.map((about) => (
    <Choice
      key={about}
      label={CAUTION_WORDS[about]}
      value={draft[about]}
      onChange={(said) => onChange({ ...draft, [about]: said })}
      options={[
        { value: 'yes', label: 'Yes' },
        { value: 'no', label: 'No' },
        { value: 'notAsked', label: 'Not asked' },
      ]}
    />
  ));
