import type { EpochMs, Payloads } from '@slackwater/domain';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';

/** `reached` null: not said yet. */
export type ToldDraft = { whom: string; reached: 'reached' | 'notReached' | null; outcome: string };

export const NOBODY_TOLD: ToldDraft = { whom: '', reached: null, outcome: '' };

type About = Pick<Payloads['told'], 'toldAt' | 'about'> & { finding: Payloads['told']['finding'] | null };

/** What is recorded of who was told: that nobody was reached is an outcome too. */
export const toldPayload = (
  { whom, reached, outcome }: ToldDraft,
  { toldAt, about, finding }: About,
): Payloads['told'] => ({
  whom: whom.trim(),
  toldAt,
  outcome: outcome.trim() || null,
  about,
  ...(finding ? { finding } : {}),
  ...(reached === 'notReached' ? { notReached: true as const } : {}),
});

/** The entry of who was told; none where nobody was named. */
export const toldOf = (
  draft: ToldDraft,
  toldAt: EpochMs,
  about: string,
  finding: About['finding'],
): readonly { kind: 'told'; payload: Payloads['told'] }[] =>
  draft.whom.trim() === '' ? [] : [{ kind: 'told', payload: toldPayload(draft, { toldAt, about, finding }) }];

/** What still has to be said of somebody who was named; null when nothing is. */
export const toldMissing = ({ whom, reached }: ToldDraft): string | null =>
  whom.trim() !== '' && reached === null ? 'reached or not?' : null;

type FieldsProps = { draft: ToldDraft; onChange: (part: Partial<ToldDraft>) => void };

/** Whom, reached or not, and what was said; nobody need be named. */
export const ToldFields = ({ draft, onChange }: FieldsProps) => (
  <>
    <Field
      label="Whom"
      value={draft.whom}
      onChange={(whom) => onChange({ whom })}
      maxLength={120}
      hint="left empty: nobody yet"
    />
    {draft.whom.trim() !== '' && <ReachedFields draft={draft} onChange={onChange} />}
  </>
);

/** Reached or not, and what was said. */
export const ReachedFields = ({ draft, onChange }: FieldsProps) => (
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
);
