import type { Solution } from '@slackwater/domain';
import { Choice } from '../../ui/choice.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { InstantField } from '../bedside/shared/instant-field.tsx';
import styles from './admission.module.css';
import type { InsideDraft } from './admission-draft.ts';

type InsideNowProps = {
  draft: InsideDraft;
  onChange: (draft: InsideDraft) => void;
  formulary: readonly Solution[];
  zone: string;
  filledMostMl: number;
};

/** What is inside now: empty, known, or not known; and what follows from it. */
export const InsideNow = ({ draft, onChange, formulary, zone, filledMostMl }: InsideNowProps) => (
  <>
    <Choice
      label="What is inside now"
      hideLabel
      layout="apart"
      className={styles.inside}
      value={draft.what}
      onChange={(what) => onChange({ ...draft, what })}
      options={[
        { value: 'empty', label: <Labelled word="Empty" detail="drained, and nothing filled since" /> },
        { value: 'known', label: <Labelled word="Known" detail="volume, strength and time" /> },
        { value: 'notKnown', label: <Labelled word="Not known" detail="some of it is missing" /> },
      ]}
    />
    {(draft.what === 'known' || draft.what === 'notKnown') && (
      <>
        {draft.what === 'notKnown' && <p className="quiet">Give what is known; leave the rest.</p>}
        <div className={styles.two}>
          <NumberField
            label="Volume"
            typed={draft.volume}
            onTyped={(volume) => onChange({ ...draft, volume })}
            least={1}
            most={filledMostMl}
            unit="mL"
          />
          <InstantField
            label="Filled at about"
            typed={draft.filledAt}
            onTyped={(filledAt) => onChange({ ...draft, filledAt })}
            zone={zone}
          />
        </div>
        <Choice
          label="Strength"
          layout="apart"
          value={draft.solutionId}
          onChange={(solutionId) => onChange({ ...draft, solutionId })}
          options={formulary.map((solution) => ({ value: solution.id, label: solution.strength }))}
        />
      </>
    )}
    {draft.what !== null && <Follows what={draft.what} />}
  </>
);

const Follows = ({ what }: { what: NonNullable<InsideDraft['what']> }) => (
  <section className={styles.follows} aria-label="What follows">
    <h3>What follows</h3>
    <div
      className={what === 'empty' ? styles.dry : what === 'known' ? styles.water : styles.points}
      role="img"
      aria-label={
        what === 'empty' ? 'An empty cavity' : what === 'known' ? 'Dwelling, at its level' : 'Points instead of a level'
      }
    />
    {what === 'empty' && (
      <ul>
        <li>A person says that the cavity is empty: what is probably inside starts at an ordinary residual.</li>
        <li>The next fill falls due by the prescription.</li>
      </ul>
    )}
    {what === 'known' && (
      <ul>
        <li>The dwell counts from the time that was handed over; the next drain falls due by the prescription.</li>
        <li>
          It enters as a fill on an ordinary residual: what is probably inside is reckoned from there, an estimate.
        </li>
      </ul>
    )}
    {what === 'notKnown' && (
      <ul>
        <li>
          The board shows points instead of a level, and <b>volume unknown</b>.
        </li>
        <li>
          This dwell and the ward day stay <b>Incomplete</b>, never zero.
        </li>
        <li>
          Probably inside: <b>not known</b> until a person confirms the cavity empty. Before the first fill it asks.
        </li>
      </ul>
    )}
  </section>
);

const Labelled = ({ word, detail }: { word: string; detail: string }) => (
  <>
    {word}
    <span className={styles.detail}>{detail}</span>
  </>
);
