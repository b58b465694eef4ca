import type { Payloads } from '@slackwater/domain';
import { convert } from '@slackwater/domain/units/convert';
import { SUBSTANCES } from '@slackwater/domain/units/substances';
import { Choice } from '../../ui/choice.tsx';
import { DecimalField } from './decimal-field.tsx';
import { readDecimal } from './read-decimal.ts';

type Unit = 'mmol/L' | 'mg/dL';
type Meter = Payloads['glucose']['meter'];

export type GlucoseDraft = { typed: string; unit: Unit; meter: Meter | null };

export const NO_GLUCOSE: GlucoseDraft = { typed: '', unit: 'mmol/L', meter: null };

/** 0.5 to 60 mmol/L, and the same in mg/dL: outside it a figure is more likely of the other unit. */
const RANGES: Record<Unit, { least: number; most: number; unit: Unit }> = {
  'mmol/L': { least: 0.5, most: 60, unit: 'mmol/L' },
  'mg/dL': { least: 10, most: 1080, unit: 'mg/dL' },
};

/** What was typed, in mmol/L to one decimal; null while it is no figure in its range. */
export const readGlucose = ({ typed, unit }: GlucoseDraft): number | null => {
  const { value } = readDecimal(typed, RANGES[unit]);
  if (value === null || unit === 'mmol/L') return value;
  const converted = convert(value, 'mg/dL', 'mmol/L', SUBSTANCES.glucose).value;
  return converted === null ? null : Math.round(converted * 10) / 10;
};

type GlucoseFieldsProps = {
  draft: GlucoseDraft;
  onChange: (draft: GlucoseDraft) => void;
  /** The icodextrin caution stands: no other meter may be chosen. */
  specificOnly: boolean;
};

/** A blood glucose with its unit and the meter it was read from. */
export const GlucoseFields = ({ draft, onChange, specificOnly }: GlucoseFieldsProps) => (
  <>
    <DecimalField
      label="Blood glucose"
      typed={draft.typed}
      onTyped={(typed) => onChange({ ...draft, typed })}
      {...RANGES[draft.unit]}
    />
    <Choice
      label="Unit"
      value={draft.unit}
      onChange={(unit) => onChange({ ...draft, unit })}
      options={[
        { value: 'mmol/L', label: 'mmol/L' },
        { value: 'mg/dL', label: 'mg/dL' },
      ]}
    />
    <Choice
      label="Meter"
      value={draft.meter}
      onChange={(meter) => onChange({ ...draft, meter })}
      options={
        specificOnly
          ? [{ value: 'glucoseSpecific', label: 'Glucose-specific' }]
          : [
              { value: 'glucoseSpecific', label: 'Glucose-specific' },
              { value: 'other', label: 'Other' },
            ]
      }
    />
  </>
);
