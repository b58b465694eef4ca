import type { Infused } from '@slackwater/domain';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { Choice } from '../../../ui/choice.tsx';
import { readDigits } from '../../../ui/digits.ts';
import { NumberField } from '../../../ui/number-field.tsx';
import { useBedside } from '../bedside-context.ts';

/** How much of a fill went in, as it stands in the form. */
export type InfusedDraft = { how: 'left' | 'stated' | 'none' | 'notKnown' | null; left: string; stated: string };
export const EMPTY_INFUSED: InfusedDraft = { how: null, left: '', stated: '' };

/** `flushMl` null: nobody watched it, and what is left in the bag does not tell what went in. */
type Bag = { labelledMl: number; bagExcessMl: number | null; flushMl: number | null };

/**
 * What went in when a fill was stopped: what was left in the bag tells it, or the nurse states it, or it is not known.
 * Never a zero that nobody said. Without a known bag excess the label counts as it is.
 */
export const readInfused = (draft: InfusedDraft, bag: Bag, filledMostMl: number): Infused | null => {
  switch (draft.how) {
    case null:
      return null;
    case 'none':
      return { basis: 'stated', volumeMl: 0 };
    case 'notKnown':
      return { basis: 'notKnown' };
    case 'stated': {
      const { value } = readDigits(draft.stated, { least: 0, most: filledMostMl, unit: 'mL' });
      return value === null ? null : { basis: 'stated', volumeMl: value };
    }
    case 'left': {
      const { value } = readDigits(draft.left, { least: 0, most: bag.labelledMl, unit: 'mL' });
      const { labelledMl, flushMl } = bag;
      if (value === null || flushMl === null) return null;
      const bagExcessMl = bag.bagExcessMl ?? 0;
      const wentIn = labelledMl + bagExcessMl - flushMl - value;
      return wentIn < 0
        ? { basis: 'stated', volumeMl: 0 }
        : { basis: 'computed', labelledMl, bagExcessMl, flushMl, leftInBagMl: value };
    }
  }
};

/** The bag of the fill that runs. */
export const useFillBag = (): Bag | null => {
  const { state, policy } = useBedside();
  const fill = state.visit?.fill;
  if (!fill) return null;
  return {
    labelledMl: fill.bag.labelledMl,
    bagExcessMl: solutionOf(policy.formulary, fill.bag.solutionId)?.bagExcessMl ?? null,
    flushMl: fill.flushMl,
  };
};

type InfusedFieldsProps = {
  draft: InfusedDraft;
  onChange: (draft: InfusedDraft) => void;
  bag: Bag;
  /** Whether nothing at all may have gone in: only when the visit is stopped with it. */
  noneAllowed: boolean;
};

export const InfusedFields = ({ draft, onChange, bag, noneAllowed }: InfusedFieldsProps) => {
  const { policy } = useBedside();
  const range = { least: 0, most: bag.labelledMl, unit: 'mL' };
  const infused = readInfused(draft, bag, policy.settings.filledMostMl);
  return (
    <>
      <Choice
        label="How much went in"
        layout="apart"
        value={draft.how}
        onChange={(how) => onChange({ ...draft, how })}
        options={[
          ...(bag.flushMl === null ? [] : [{ value: 'left' as const, label: 'Left in the bag' }]),
          { value: 'stated', label: 'Went in' },
          ...(noneAllowed ? [{ value: 'none' as const, label: 'Nothing went in' }] : []),
          { value: 'notKnown', label: 'Not known' },
        ]}
      />
      {draft.how === 'left' && (
        <NumberField
          label="Left in the bag"
          typed={draft.left}
          onTyped={(left) => onChange({ ...draft, left })}
          {...range}
          large
        />
      )}
      {draft.how === 'stated' && (
        <NumberField
          label="Went in"
          typed={draft.stated}
          onTyped={(stated) => onChange({ ...draft, stated })}
          least={0}
          most={policy.settings.filledMostMl}
          unit="mL"
          large
        />
      )}
      {infused?.basis === 'computed' && (
        <p>
          {formatMl(infused.labelledMl)} on the label
          {bag.bagExcessMl === null ? ', bag excess not known' : `, ${formatMl(infused.bagExcessMl)} bag excess`}, less{' '}
          {formatMl(infused.flushMl)} flush and {formatMl(infused.leftInBagMl)} left:{' '}
          <b>{formatMl(infused.labelledMl + infused.bagExcessMl - infused.flushMl - infused.leftInBagMl)} went in</b>.
        </p>
      )}
      {draft.how === 'notKnown' && <p>The dwell and the ward day stay incomplete, never zero.</p>}
    </>
  );
};
