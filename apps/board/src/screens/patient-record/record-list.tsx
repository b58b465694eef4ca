import type { EntryView } from '@slackwater/contract';
import { dateAt } from '@slackwater/domain/time/zone';
import { formatIsoDate } from '@slackwater/domain/words/numbers';
import { familyName } from '../../components/names.ts';
import { Button } from '../../ui/button.tsx';
import { cx } from '../../ui/class-names.ts';
import { amended } from '../bedside/model/amended.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import styles from './patient-record.module.css';
import { entryWords } from './words/entry-words.ts';
import type { Words } from './words/said.ts';

type RecordListProps = {
  patient: PatientContext;
  entries: readonly EntryView[];
  /** Whether what the tool itself wrote about alerts is shown as well. */
  withAlerts: boolean;
  chosen: string | null;
  /** Why an entry may not be amended by this person; null when it may. */
  whyNot: (entry: EntryView) => string | null;
  onChoose: (entry: EntryView) => void;
};

const ABOUT_OTHERS = new Set<EntryView['kind']>(['corrected', 'retracted']);
const isAlert = (entry: EntryView): boolean => entry.kind.startsWith('alert');

/** All entries, newest day first: what counts, and under it what it said before and why it was changed. */
export const RecordList = ({ patient, entries, withAlerts, chosen, whyNot, onChoose }: RecordListProps) => {
  const { clock, ward, policy } = patient;
  const words: Words = { clock, formulary: policy.formulary };
  const shown = entries
    .filter((entry) => !ABOUT_OTHERS.has(entry.kind) && (withAlerts || !isAlert(entry)))
    .map((entry) => ({ entry, now: amended(entry, entries) }))
    .sort((a, b) => b.now.happenedAt - a.now.happenedAt || b.entry.position - a.entry.position);
  const days = Map.groupBy(shown, ({ now }) => dateAt(now.happenedAt, ward.zone));
  return (
    <div className={styles.list}>
      {[...days].map(([day, rows]) => (
        <section key={day}>
          <h3 className={styles.day}>{formatIsoDate(day)}</h3>
          <ol>
            {rows.map(({ entry, now }) => {
              const said = entryWords(entry.kind, now.payload, words);
              const newest = now.corrections.at(-1);
              const why = now.retraction ? 'retracted' : whyNot(entry);
              return (
                <li key={entry.id} className={cx(chosen === entry.id && styles.chosen)}>
                  <span className={`mono ${styles.time}`}>{clock(now.happenedAt)}</span>
                  <div>
                    <p className={styles.what}>
                      <span className={cx(now.retraction && styles.never)}>{said.what}</span>
                      {newest && <span className={styles.mark}>corrected</span>}
                      {now.retraction && <span className={styles.mark}>retracted</span>}
                    </p>
                    {newest && (
                      <p className={styles.was}>
                        Original: {entryWords(entry.kind, entry.payload, words).what}, {clock(entry.happenedAt)},{' '}
                        {familyName(entry.authorName ?? 'the tool')}
                      </p>
                    )}
                    {said.detail && <p className={styles.by}>{said.detail}</p>}
                    <p className={styles.by}>
                      {familyName(entry.authorName ?? 'The tool')}, received {clock(entry.receivedAt)}
                      {entry.releasedByName && `, let in by ${entry.releasedByName}`}
                      {newest &&
                        `. ${familyName(newest.authorName ?? '')} ${clock(newest.receivedAt)}: “${newest.payload.reason}”`}
                      {now.retraction &&
                        `. ${familyName(now.retraction.authorName ?? '')} ${clock(now.retraction.receivedAt)}: “${now.retraction.payload.reason}”`}
                    </p>
                  </div>
                  {entry.author !== null && !now.retraction && (
                    <Button tone="text" disabledBecause={why} onPress={() => onChoose(entry)}>
                      Correct<span className="sr">: {said.what}</span>
                    </Button>
                  )}
                </li>
              );
            })}
          </ol>
        </section>
      ))}
      {shown.length === 0 && <p>Nothing is recorded yet.</p>}
    </div>
  );
};
