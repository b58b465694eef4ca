import { orderedAdditivesWords } from '@slackwater/domain/prescription/additive-words';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { Choice } from '../../../ui/choice.tsx';
import { Field } from '../../../ui/field.tsx';
import { IcodextrinCaution } from '../../prescription/icodextrin-caution.tsx';
import { TelephoneFields } from '../../prescription/telephone-fields.tsx';
import { useBedside } from '../bedside-context.ts';
import { type ExchangeDraft, readBackWords, readDwell, withChange } from './exchange-draft.ts';

type ExchangeFieldsProps = {
  draft: ExchangeDraft;
  onChange: (draft: ExchangeDraft) => void;
  wanted: NextBag;
  bag: { solutionId: string; fillMl: number | null };
};

/** The dwell as prescribed, to be confirmed or changed; what was to be put in, kept or left out; who said so; read back. */
export const ExchangeFields = ({ draft, onChange, wanted, bag }: ExchangeFieldsProps) => {
  const { state, policy, view } = useBedside();
  const change = (part: Partial<ExchangeDraft>) => onChange(withChange(draft, part));
  return (
    <>
      <IcodextrinCaution state={state} allergy={view.patient.allergy} solutionIds={[bag.solutionId]} policy={policy} />
      <Field
        label="Dwell"
        value={draft.dwell}
        onChange={(dwell) => change({ dwell })}
        hint={
          wanted.dwellMinutes === null ? 'left empty: by the clock, as prescribed' : 'as prescribed; ask, or change it'
        }
        problem={readDwell(draft, policy).problem}
      />
      {wanted.additives.length > 0 && (
        <Choice
          label={`Prescribed into this bag: ${orderedAdditivesWords(wanted.additives)}. What does the physician say?`}
          layout="apart"
          value={draft.additives}
          onChange={(additives) => change({ additives })}
          options={[
            { value: 'kept', label: 'Kept, as prescribed' },
            { value: 'leftOut', label: 'Left out' },
          ]}
        />
      )}
      <Field label="In words" value={draft.note} onChange={(note) => change({ note })} maxLength={1500} />
      <TelephoneFields
        draft={draft}
        onChange={change}
        words={readBackWords(draft, wanted, bag, policy)}
        countersignHours={policy.settings.countersignHours}
      />
    </>
  );
};
