import type { Appearance, Finding } from '@slackwater/domain';
import { causeOfComfort, findingsOfAppearance, findingsOfComfort } from '@slackwater/domain/effluent/finding';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Button } from '../../../ui/button.tsx';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { type ComfortDraft, NO_COMFORT, readComfort } from '../model/comfort-draft.ts';
import { appearanceWords, comfortWords, isComfortable } from '../model/words.ts';
import { Acts } from '../shared/acts.tsx';
import { AppearanceChoices } from '../shared/appearance-choices.tsx';
import { ComfortFields } from '../shared/comfort-fields.tsx';
import formStyles from '../shared/form.module.css';
import { By } from '../shared/heading.tsx';
import { Responses } from '../shared/responses.tsx';
import { Ago, useAgo } from '../shared/when.tsx';
import styles from './looks.module.css';

type LooksDraft = ComfortDraft & {
  appearance: readonly Appearance[];
  done: readonly string[];
  whom: string;
  outcome: string;
};
const NOTHING: LooksDraft = { ...NO_COMFORT, appearance: [], done: [], whom: '', outcome: '' };

/** Appearance and comfort in detail, what it asks for, who was told, when, and what was said. */
export const Looks = ({ phase }: { phase: 'drain' | 'fill' }) => {
  const { state, policy, record, sending, back } = useBedside();
  const visit = state.visit;
  const number = Math.max(1, visit?.drains.length ?? 1);
  const drain = visit?.drains.at(-1);
  const [draft, setDraft, forget] = useDraft<LooksDraft>(`looks:${visit?.id ?? ''}:${number}:${phase}`, {
    ...NOTHING,
    appearance: drain?.appearance ?? [],
  });
  const change = (part: Partial<LooksDraft>) => setDraft({ ...draft, ...part });
  const told = useAgo(null);
  const { comfort, problem } = readComfort(draft);
  const ofAppearance = phase === 'drain' ? findingsOfAppearance(draft.appearance) : [];
  const ofComfort = findingsOfComfort(comfort, policy.settings);

  /** What was found and where, as the alert about it names it: what somebody is told of hangs on that. */
  const foundAt = (): { finding: Finding; cause: string } | null => {
    if (ofAppearance[0] && drain) return { finding: ofAppearance[0], cause: drain.entryId };
    if (ofComfort[0] && visit) return { finding: ofComfort[0], cause: causeOfComfort('', visit.id, phase) };
    return null;
  };

  const keep = async (reached: boolean) => {
    const at = serverClock.now();
    const about = [
      ofAppearance.length > 0 ? appearanceWords(draft.appearance) : null,
      isComfortable(comfort) ? null : comfortWords(comfort),
    ].filter((one) => one !== null);
    const note = draft.done.length > 0 ? `Done at the bed: ${draft.done.join('; ')}.` : null;
    const finding = foundAt();
    const word = {
      whom: draft.whom.trim(),
      toldAt: told.at(),
      outcome: draft.outcome.trim() || null,
      about: about.join(', ') || 'comfort',
      ...(finding ? { finding } : {}),
      ...(reached ? {} : { notReached: true as const }),
    };
    const acts = [
      ...(phase === 'drain' ? [act('appearance', { drain: number, appearance: draft.appearance, note }, at)] : []),
      act('comfort', { phase, comfort }, at),
      ...(word.whom ? [act('told', word, at)] : []),
    ];
    if (await record(acts)) {
      forget();
      back();
    }
  };

  const because = sending
    ? 'being sent'
    : phase === 'drain' && draft.appearance.length === 0
      ? 'say how it looks'
      : problem !== null
        ? 'pain is 0 to 10'
        : null;
  const whom = draft.whom.trim();

  return (
    <div className={styles.looks}>
      <div>
        {phase === 'drain' && (
          <>
            <By>Appearance</By>
            <AppearanceChoices
              hideLabel
              className={styles.list}
              values={draft.appearance}
              onChange={(appearance) => change({ appearance })}
            />
          </>
        )}
        <By>Comfort</By>
        <div className={styles.comfort}>
          <ComfortFields draft={draft} onChange={change} className={styles.pairs} />
        </div>
      </div>
      <section className={styles.prompt} aria-live="polite">
        {ofAppearance.length + ofComfort.length === 0 && <h2>How it looks and feels</h2>}
        <Responses
          findings={[...ofAppearance, ...ofComfort]}
          policy={policy}
          done={draft.done}
          onDone={(done) => change({ done })}
        />
        <By>Who was told</By>
        <div className={formStyles.form}>
          <div className={formStyles.two}>
            <Field
              label="Whom"
              value={draft.whom}
              onChange={(name) => change({ whom: name })}
              maxLength={120}
              hint="left empty: nobody yet"
            />
            <Ago label="Told at" ago={told} notBefore={visit?.startedAt ?? null} />
          </div>
          <Field
            label="What was said, what follows"
            value={draft.outcome}
            onChange={(outcome) => change({ outcome })}
            maxLength={2000}
          />
        </div>
        <Acts afterList>
          <Button tone="main" onPress={() => void keep(true)} disabledBecause={because}>
            {whom ? `Keep: ${whom} told` : 'Keep'}
          </Button>
          {whom && (
            <Button onPress={() => void keep(false)} disabledBecause={because}>
              Not reached
            </Button>
          )}
          <Button onPress={back}>Back</Button>
        </Acts>
      </section>
    </div>
  );
};
