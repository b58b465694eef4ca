import type { Appearance, Comfort } from '@slackwater/domain';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Button } from '../../../ui/button.tsx';
import { Choices } from '../../../ui/choice.tsx';
import { readDigits } from '../../../ui/digits.ts';
import { Field } from '../../../ui/field.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { Acts } from '../shared/acts.tsx';
import { Source } from '../shared/facts.tsx';
import formStyles from '../shared/form.module.css';
import { By } from '../shared/heading.tsx';
import { Tick } from '../shared/tick.tsx';
import { Ago, useAgo } from '../shared/when.tsx';
import styles from './looks.module.css';
import { adviceFor } from './looks-advice.ts';

const APPEARANCES: readonly { value: Appearance; label: string }[] = [
  { value: 'clear', label: 'Clear: print readable through the bag' },
  { value: 'cloudy', label: 'Cloudy' },
  { value: 'fibrin', label: 'Fibrin strands' },
  { value: 'pink', label: 'Pink' },
  { value: 'bloody', label: 'Bloody' },
  { value: 'milky', label: 'Milky' },
  { value: 'brown', label: 'Brown or faecal' },
  { value: 'green', label: 'Green' },
];

type Felt = 'cramp' | 'breathless' | 'leakAtExit' | 'swelling';
const FELT: readonly { value: Felt; label: string }[] = [
  { value: 'cramp', label: 'Cramp' },
  { value: 'breathless', label: 'Breathless' },
  { value: 'leakAtExit', label: 'Leak at exit' },
  { value: 'swelling', label: 'Swelling' },
];

const PAIN = { least: 0, most: 10, unit: '/10' } as const;

type LooksDraft = {
  appearance: readonly Appearance[];
  felt: readonly Felt[];
  pain: string;
  done: readonly string[];
  whom: string;
  outcome: string;
};
const NOTHING: LooksDraft = { appearance: [], felt: [], pain: '', done: [], whom: '', outcome: '' };

/** Appearance and comfort in detail, what it asks for, who was told, when, and what was said. */
export const Looks = ({ phase }: { phase: 'drain' | 'fill' }) => {
  const { state, record, sending, back } = useBedside();
  const visit = state.visit;
  const number = Math.max(1, visit?.drains.length ?? 1);
  const [draft, setDraft, forget] = useDraft<LooksDraft>(`looks:${visit?.id ?? ''}:${number}:${phase}`, {
    ...NOTHING,
    appearance: visit?.drains.at(-1)?.appearance ?? [],
  });
  const change = (part: Partial<LooksDraft>) => setDraft({ ...draft, ...part });
  const told = useAgo(null);
  const pain = readDigits(draft.pain, PAIN);
  const advice = phase === 'drain' ? adviceFor(draft.appearance) : null;

  const setAppearance = (next: readonly Appearance[]) => {
    // Clear and anything else exclude each other; pink with fibrin may stand together.
    const added = next.find((one) => !draft.appearance.includes(one));
    const kept = added === 'clear' ? (['clear'] as const) : next.filter((one) => one !== 'clear' || next.length === 1);
    change({ appearance: kept });
  };

  const comfort: Comfort = {
    // Empty is "not asked", never "none": the criteria of peritonitis tell the two apart.
    pain: pain.value,
    phase: null,
    cramp: draft.felt.includes('cramp'),
    breathless: draft.felt.includes('breathless'),
    leakAtExit: draft.felt.includes('leakAtExit'),
    swelling: draft.felt.includes('swelling'),
  };

  const keep = async () => {
    const at = serverClock.now();
    const about = [...draft.appearance, ...draft.felt, ...(pain.value ? [`pain ${pain.value}`] : [])].join(', ');
    const note = draft.done.length > 0 ? `Done at the bed: ${draft.done.join('; ')}.` : null;
    const acts = [
      ...(phase === 'drain' ? [act('appearance', { drain: number, appearance: draft.appearance, note }, at)] : []),
      act('comfort', { phase, comfort }, at),
      ...(draft.whom.trim()
        ? [
            act(
              'told',
              {
                whom: draft.whom.trim(),
                toldAt: told.at(),
                outcome: draft.outcome.trim() || null,
                about: about || 'comfort',
              },
              at,
            ),
          ]
        : []),
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
      : pain.problem !== null
        ? 'pain is 0 to 10'
        : null;

  return (
    <div className={styles.looks}>
      <div>
        {phase === 'drain' && (
          <>
            <By>Appearance</By>
            <Choices
              label="Appearance"
              hideLabel
              className={styles.list}
              options={APPEARANCES}
              values={draft.appearance}
              onChange={setAppearance}
            />
          </>
        )}
        <By>Comfort</By>
        <Choices
          label="What the patient feels"
          hideLabel
          className={styles.pairs}
          options={FELT}
          values={draft.felt}
          onChange={(felt) => change({ felt })}
        />
        <NumberField
          label="Pain, 0 none to 10; empty: not asked"
          typed={draft.pain}
          onTyped={(typed) => change({ pain: typed })}
          {...PAIN}
        />
      </div>
      <section className={styles.prompt} aria-live="polite">
        <h2>{advice?.title ?? 'How it looks and feels'}</h2>
        {advice && advice.todo.length > 0 && (
          <ul className={styles.todo}>
            {advice.todo.map(({ what, how }) => (
              <li key={what}>
                <Tick
                  checked={draft.done.includes(what)}
                  onChange={(ticked) =>
                    change({ done: ticked ? [...draft.done, what] : draft.done.filter((one) => one !== what) })
                  }
                >
                  <b>{what}</b> <small>{how}</small>
                </Tick>
              </li>
            ))}
          </ul>
        )}
        {(comfort.breathless || comfort.swelling) && (
          <p>
            <b>Do not fill, sit up, call.</b> Breathless with a short drain is a leak into the chest until excluded
            (common practice).
          </p>
        )}
        <By>Who was told</By>
        <div className={formStyles.form}>
          <div className={formStyles.two}>
            <Field
              label="Whom"
              value={draft.whom}
              onChange={(whom) => change({ whom })}
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
        {advice && <Source>{advice.source}</Source>}
        <Acts>
          <Button tone="main" onPress={() => void keep()} disabledBecause={because}>
            {draft.whom.trim() ? `Keep: ${draft.whom.trim()} told` : 'Keep'}
          </Button>
          <Button onPress={back}>Back</Button>
        </Acts>
      </section>
    </div>
  );
};
