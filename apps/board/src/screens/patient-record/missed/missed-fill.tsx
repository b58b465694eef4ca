import type { PrescriptionItem, WardPolicy } from '@slackwater/domain';
import { additivesWords } from '@slackwater/domain/prescription/additive-words';
import { itemWords } from '@slackwater/domain/prescription/changes';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { Choice } from '../../../ui/choice.tsx';
import { Field } from '../../../ui/field.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { typedLotProblem } from '../../bedside/prepare/bag-details.tsx';
import { InstantField } from '../../bedside/shared/instant-field.tsx';
import { Tick } from '../../bedside/shared/tick.tsx';
import type { FillDraft } from './missed-draft.ts';
import { WatchedChoice } from './watched-choice.tsx';

type MissedFillProps = {
  draft: FillDraft;
  onChange: (part: Partial<FillDraft>) => void;
  items: readonly PrescriptionItem[];
  policy: WardPolicy;
  zone: string;
};

/** What ran in and which bag it came from, as far as somebody knows. */
export const MissedFill = ({ draft, onChange, items, policy, zone }: MissedFillProps) => {
  const { formulary, settings } = policy;
  const item = items.find((one) => one.id === draft.itemId);
  const solutionId = draft.solutionId ?? item?.solutionId ?? null;
  const chambers = solutionOf(formulary, solutionId)?.chambers ?? 1;
  return (
    <>
      <InstantField label="Fill started" typed={draft.start} onTyped={(start) => onChange({ start })} zone={zone} />
      <InstantField label="Fill ended" typed={draft.end} onTyped={(end) => onChange({ end })} zone={zone} />
      <Choice
        label={
          items.length > 0 ? 'Which prescribed exchange it was' : 'Nothing is prescribed: a fill cannot be entered'
        }
        layout="apart"
        value={draft.itemId}
        onChange={(itemId) => onChange({ itemId, solutionId: null })}
        options={items.map((one) => ({ value: one.id, label: itemWords(one, formulary) }))}
      />
      {item && (
        <Choice
          label="What ran in"
          layout="apart"
          value={solutionId}
          onChange={(next) => onChange({ solutionId: next })}
          options={formulary.map((solution) => ({ value: solution.id, label: solution.strength }))}
        />
      )}
      {item && solutionId !== item.solutionId && (
        <>
          <Field
            label="Why another fluid"
            value={draft.reason}
            onChange={(reason) => onChange({ reason })}
            maxLength={500}
          />
          <Field
            label="Physician who said so"
            value={draft.physician}
            onChange={(physician) => onChange({ physician })}
            maxLength={120}
          />
        </>
      )}
      {item && (
        <Field
          label="Lot, if somebody read it"
          value={draft.lot}
          onChange={(lot) => onChange({ lot })}
          autoComplete="off"
          maxLength={60}
          problem={typedLotProblem(draft.lot)}
        />
      )}
      {item && item.additives.length > 0 && (
        <Field
          label={`In the bag: ${additivesWords(item.additives)}. Second person who checked it`}
          value={draft.secondPerson}
          onChange={(secondPerson) => onChange({ secondPerson })}
          maxLength={120}
        />
      )}
      <WatchedChoice
        label="The bag"
        value={draft.bag}
        onChange={(bag) => onChange({ bag })}
        seen={[
          {
            value: 'seen',
            label: `Checked: in date, no leak, clear, warmed, seal whole${chambers > 1 ? ', chambers mixed' : ''}`,
          },
        ]}
      />
      <WatchedChoice
        label="Before it ran"
        value={draft.seal}
        onChange={(seal) => onChange({ seal })}
        seen={[{ value: 'seen', label: 'Outlet seal broken, no leak seen' }]}
      />
      {!draft.flushNotKnown && (
        <NumberField
          label="Flushed into the drain bag"
          typed={draft.flush}
          onTyped={(flush) => onChange({ flush })}
          least={0}
          most={settings.flushMostMl}
          unit="mL"
        />
      )}
      <Tick checked={draft.flushNotKnown} onChange={(flushNotKnown) => onChange({ flushNotKnown })}>
        Flush not known
      </Tick>
      {!draft.notKnown && (
        <NumberField
          label="Went in"
          typed={draft.filled}
          onTyped={(filled) => onChange({ filled })}
          least={1}
          most={settings.filledMostMl}
          unit="mL"
        />
      )}
      <Tick checked={draft.notKnown} onChange={(notKnown) => onChange({ notKnown })}>
        Filled volume not known: the dwell stays incomplete
      </Tick>
    </>
  );
};
