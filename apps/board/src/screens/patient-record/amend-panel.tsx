import type { EntryView } from '@slackwater/contract';
import { formatWhole } from '@slackwater/domain/words/numbers';
import { serverClock } from '../../api/clock.ts';
import { familyName } from '../../components/names.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { readDigits } from '../../ui/digits.ts';
import { Field } from '../../ui/field.tsx';
import { amended } from '../bedside/model/amended.ts';
import { act } from '../bedside/model/batch.ts';
import { Acts } from '../bedside/shared/acts.tsx';
import { InstantField } from '../bedside/shared/instant-field.tsx';
import { readInstant, typedFrom } from '../bedside/shared/typed-instant.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import type { Recorder } from '../bedside/shared/use-record.ts';
import { readDecimal } from '../observations/read-decimal.ts';
import { figuresOf, withFigures } from './correctable.ts';
import styles from './patient-record.module.css';
import { whatItChanges } from './what-it-changes.ts';
import { entryWords } from './words/entry-words.ts';

type Why = 'digits' | 'again' | 'time' | 'wrongPatient' | 'never';

const WHY: readonly { value: Why; label: string }[] = [
  { value: 'digits', label: 'Digits exchanged' },
  { value: 'again', label: 'Measured again' },
  { value: 'time', label: 'Time was wrong' },
  { value: 'wrongPatient', label: 'Wrong patient' },
  { value: 'never', label: 'It never happened' },
];

/** These take the entry out altogether; the others put another one in its place. */
const RETRACTS: readonly Why[] = ['wrongPatient', 'never'];

type AmendPanelProps = {
  patient: PatientContext;
  recorder: Recorder;
  entry: EntryView;
  entries: readonly EntryView[];
  onClose: () => void;
};

/** A correction or a retraction: the original stays and is readable; what it changes is said before it is signed. */
export const AmendPanel = ({ patient, recorder, entry, entries, onClose }: AmendPanelProps) => {
  const { clock, ward, policy, session, state } = patient;
  const now = amended(entry, entries);
  const words = { clock, formulary: policy.formulary };
  const figures = figuresOf(entry.kind, now.payload, policy.settings);
  const [draft, setDraft, forget] = useDraft(`amend:${now.lastId}`, {
    why: null as Why | null,
    words: '',
    figures: {} as Readonly<Record<string, string>>,
    at: typedFrom(now.happenedAt, ward.zone),
  });
  const change = (part: Partial<typeof draft>) => setDraft({ ...draft, ...part });
  const retracts = draft.why !== null && RETRACTS.includes(draft.why);

  const read = figures.map((figure) => {
    const typed = draft.figures[figure.key] ?? '';
    const range = { least: figure.least, most: figure.most, unit: figure.unit };
    return { figure, typed, ...(figure.decimals ? readDecimal(typed, range) : readDigits(typed, range)) };
  });
  const typedFigures = Object.fromEntries(
    read.flatMap(({ figure, value }) => (value === null ? [] : [[figure.key, value]])),
  );
  const payload = withFigures(entry.kind, now.payload, typedFigures);
  const typedAt = readInstant(draft.at, ward.zone);
  // A time that nobody typed anew keeps its seconds.
  const sameMinute = JSON.stringify(draft.at) === JSON.stringify(typedFrom(now.happenedAt, ward.zone));
  const happenedAt = sameMinute ? now.happenedAt : typedAt.at;
  const nothingNew = Object.keys(typedFigures).length === 0 && happenedAt === now.happenedAt;
  const changes = retracts ? [] : whatItChanges(state, entry, now.payload, payload);

  const missing = [
    draft.why === null ? 'why' : null,
    draft.words.trim() === '' ? 'words' : null,
    !retracts && read.some((one) => one.problem !== null) ? 'a possible value' : null,
    !retracts && happenedAt === null ? 'a possible time' : null,
    !retracts && nothingNew ? 'what is different' : null,
  ].filter((one) => one !== null);

  const sign = async () => {
    const label = WHY.find((one) => one.value === draft.why)?.label ?? '';
    const reason = `${label}: ${draft.words.trim()}`;
    const at = serverClock.now();
    const acts = retracts
      ? [act('retracted', { target: now.lastId, reason, enteredAs: null }, at)]
      : [act('corrected', { target: now.lastId, reason, payload, happenedAt: happenedAt ?? now.happenedAt }, at)];
    const typed = acts.map((one) => ({ ...one, timeTyped: true }));
    if (await recorder.record(typed, entry.visitId)) {
      forget();
      onClose();
    }
  };

  return (
    <aside className={styles.fix} aria-labelledby="amend">
      <h2 id="amend">
        Correct: {entryWords(entry.kind, now.payload, words).what}, {clock(now.happenedAt)}
      </h2>
      <Choice label="Why" layout="apart" value={draft.why} onChange={(why) => change({ why })} options={WHY} />
      {!retracts && (
        <>
          {read.map(({ figure, typed, problem }) => (
            <div key={figure.key} className={styles.versus}>
              <div>
                <p className="quiet">Original</p>
                <p className={styles.original}>{originalFigure(figure.key, now.payload, figure.unit)}</p>
              </div>
              <Field
                label={`Corrected: ${figure.label}`}
                value={typed}
                onChange={(text) => change({ figures: { ...draft.figures, [figure.key]: text } })}
                unit={figure.unit}
                inputMode={figure.decimals ? 'decimal' : 'numeric'}
                autoComplete="off"
                problem={problem}
                large
              />
            </div>
          ))}
          <InstantField label="When it happened" typed={draft.at} onTyped={(at) => change({ at })} zone={ward.zone} />
        </>
      )}
      {retracts && <p>It stays readable, struck through, and counts nowhere. Enter it for the right patient there.</p>}
      <Field label="In words" value={draft.words} onChange={(text) => change({ words: text })} maxLength={400} />
      {changes.length > 0 && (
        <table className={styles.change}>
          <caption className="sr">What it changes</caption>
          <thead>
            <tr>
              <th scope="col">What it changes</th>
              <th scope="col">now</th>
              <th scope="col">then</th>
            </tr>
          </thead>
          <tbody>
            {changes.map((one) => (
              <tr key={one.figure}>
                <th scope="row">{one.figure}</th>
                <td>{one.now}</td>
                <td>{one.corrected}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <Acts>
        <Button
          tone="main"
          onPress={() => void sign()}
          disabledBecause={
            recorder.sending ? 'being sent' : missing.length > 0 ? `missing: ${missing.join(', ')}` : null
          }
        >
          {retracts ? 'Retract' : 'Correct'} and sign as {familyName(session.account.name)}
        </Button>
        <Button onPress={onClose}>Back</Button>
      </Acts>
    </aside>
  );
};

const originalFigure = (key: string, payload: Readonly<Record<string, unknown>>, unit: string): string => {
  const value = key === 'infused' ? infusedFigure(payload.infused) : payload[key];
  if (typeof value !== 'number') return 'not known';
  return `${Number.isInteger(value) ? formatWhole(value) : value} ${unit}`;
};

const infusedFigure = (infused: unknown): number | null => {
  if (typeof infused !== 'object' || infused === null) return null;
  if ('volumeMl' in infused && typeof infused.volumeMl === 'number') return infused.volumeMl;
  if ('labelledMl' in infused && typeof infused.labelledMl === 'number') return infused.labelledMl;
  return null;
};
