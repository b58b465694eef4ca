import type { EpochMs, Payloads } from '@slackwater/domain';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';

export type ToldDraft = { whom: string; reached: 'reached' | 'notReached'; outcome: string };

export const NOBODY_TOLD: ToldDraft = { whom: '', reached: 'reached', outcome: '' };

/** The entry of who was told; none where nobody was named. */
export const toldOf = (
  { whom, reached, outcome }: ToldDraft,
  toldAt: EpochMs,
  about: string,
  finding: Payloads['told']['finding'] | null,
): readonly { kind: 'told'; payload: Payloads['told'] }[] =>
  whom.trim() === ''
    ? []
    : [
        {
          kind: 'told',
          payload: {
            whom: whom.trim(),
            toldAt,
            outcome: outcome.trim() || null,
            about,
            ...(finding ? { finding } : {}),
            ...(reached === 'notReached' ? { notReached: true as const } : {}),
          },
        },
      ];

/** Whom, reached or not, and what was said. */
export const ToldFields = ({ draft, onChange }: { draft: ToldDraft; onChange: (part: Partial<ToldDraft>) => void }) => (
  <>
    <Field
      label="Whom"
      value={draft.whom}
      onChange={(whom) => onChange({ whom })}
      maxLength={120}
      hint="left empty: nobody yet"
    />
    {draft.whom.trim() !== '' && (
      <>
        <Choice
          label="Reached"
          value={draft.reached}
          onChange={(reached) => onChange({ reached })}
          options={[
            { value: 'reached', label: 'Told' },
            { value: 'notReached', label: 'Not reached' },
          ]}
        />
        <Field
          label="What was said, what follows"
          value={draft.outcome}
          onChange={(outcome) => onChange({ outcome })}
          maxLength={2000}
        />
      </>
    )}
  </>
);
