import type { FlowMove } from '@slackwater/domain';
import { serverClock } from '../../../api/clock.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Choice, Choices } from '../../../ui/choice.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { COMFORTABLE } from '../model/words.ts';
import { By } from '../shared/heading.tsx';
import styles from './drain.module.css';

const MOVES: readonly { value: FlowMove; label: string }[] = [
  { value: 'kinksAndClamps', label: 'Kinks, closed clamps' },
  { value: 'bagBelowAbdomen', label: 'Bag below the abdomen' },
  { value: 'turnedOnSide', label: 'Turned on the side' },
  { value: 'satUp', label: 'Sat up' },
  { value: 'fibrinInLine', label: 'Fibrin in the line' },
  { value: 'bowels', label: 'Bowels' },
];

/** What nobody has said yet: one complaint says nothing of pain. */
const NOT_ASKED = { ...COMFORTABLE, pain: null };

/** A drain that runs long: the one question that changes everything, and first moves to tick (common practice). */
export const SlowDrain = ({ drain }: { drain: number }) => {
  const { state, record, open } = useBedside();
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
        options={MOVES}
        values={tried}
        onChange={(moves) => {
          const added = moves.filter((move) => !tried.includes(move));
          if (added.length > 0) void record([act('flowMoves', { drain, tried: moves }, serverClock.now())]);
        }}
      />
    </>
  );
};
