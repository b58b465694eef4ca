import { flowVerdict, flowVerdictWords } from '@slackwater/domain/dwell/flow-verdict';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Choice, Choices } from '../../../ui/choice.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { EFFECT_WORDS, MOVE_WORDS, movesInOrder } from '../model/move-words.ts';
import { COMFORTABLE } from '../model/words.ts';
import { By } from '../shared/heading.tsx';
import styles from './drain.module.css';

const EFFECTS = (['runsAgain', 'better', 'same'] as const).map((value) => ({ value, label: EFFECT_WORDS[value] }));

/** What nobody has said yet: one complaint says nothing of pain. */
const NOT_ASKED = { ...COMFORTABLE, pain: null };

/** A drain that runs long: the one question that changes everything, and first moves to tick (common practice). */
export const SlowDrain = ({ drain }: { drain: number }) => {
  const { state, policy, record, open } = useBedside();
  const effects = state.visit?.flowEffects.filter((one) => one.drain === drain) ?? [];
  const tried = state.visit?.flowMoves ?? [];
  const said = state.visit?.comfort ?? null;
  const [no, setNo] = useDraft(`neither:${state.visit?.id ?? ''}:${drain}`, false);
  const leaks = said !== null && (said.breathless || said.swelling);
  const answer = said?.breathless ? 'breathless' : said?.swelling ? 'swelling' : no ? 'no' : null;
  const say = (found: 'no' | 'breathless' | 'swelling') => {
    setNo(found === 'no');
    if (found !== 'no') {
      const comfort = { ...(said ?? NOT_ASKED), [found]: true };
      void record([act('comfort', { phase: 'drain', comfort }, serverClock.now())]);
      open('looks');
    }
  };
  return (
    <>
      <div className={styles.question}>
        <b>Breathless, or swelling of flank, genitals or a hernia?</b>
        <Choice
          label="Breathless, or swelling of flank, genitals or a hernia?"
          hideLabel
          value={answer}
          onChange={say}
          options={[
            { value: 'no', label: 'No' },
            { value: 'breathless', label: 'Breathless' },
            { value: 'swelling', label: 'Swelling' },
          ]}
        />
      </div>
      {leaks && (
        <p className={styles.must} role="alert">
          <b>Do not fill, sit up, call.</b> Breathless with a short drain is a leak into the chest until excluded;
          swelling means a leak (common practice).
        </p>
      )}
      <By>First moves</By>
      <Choices
        label="First moves tried"
        hideLabel
        className={styles.moves}
        options={movesInOrder(policy.settings).map((value) => ({ value, label: MOVE_WORDS[value] }))}
        values={tried}
        onChange={(moves) => {
          const added = moves.filter((move) => !tried.includes(move));
          if (added.length > 0) void record([act('flowMoves', { drain, tried: moves }, serverClock.now())]);
        }}
      />
      {movesInOrder(policy.settings)
        .filter((move) => tried.includes(move))
        .map((move) => (
          <div key={move} className={styles.effect}>
            <Choice
              label={`${MOVE_WORDS[move]}: what it did`}
              value={effects.find((one) => one.move === move)?.effect ?? null}
              onChange={(effect) => void record([act('flowEffect', { drain, move, effect }, serverClock.now())])}
              options={EFFECTS}
            />
          </div>
        ))}
      <p className={styles.verdict}>
        {flowVerdictWords(flowVerdict(state.openDwell?.fills ?? [], policy.settings))} <small>Common practice.</small>
      </p>
    </>
  );
};
