import type { EntryView } from '@slackwater/contract';
import { pressureQuestion } from '@slackwater/domain/exchange/pressure-first';
import { formatMl } from '@slackwater/domain/words/numbers';
import { newId } from '../../../api/ids.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { Button } from '../../../ui/button.tsx';
import { Choice } from '../../../ui/choice.tsx';
import { composeBatch } from '../../bedside/model/batch.ts';
import { Acts } from '../../bedside/shared/acts.tsx';
import { ComfortFields } from '../../bedside/shared/comfort-fields.tsx';
import type { PatientContext } from '../../bedside/shared/use-patient.ts';
import type { Recorder } from '../../bedside/shared/use-record.ts';
import styles from '../patient-record.module.css';
import { beginsAt, type Missed, missedActs, stepBefore } from './missed-acts.ts';
import { type MissedDraft, NOTHING_MISSED } from './missed-draft.ts';
import { MissedDrain } from './missed-drain.tsx';
import { MissedFill } from './missed-fill.tsx';
import { readMissed } from './read-missed.ts';
import { WatchedChoice } from './watched-choice.tsx';

type MissedExchangeProps = {
  patient: PatientContext;
  recorder: Recorder;
  entries: readonly EntryView[];
  onClose: () => void;
};

/** A whole exchange entered afterwards, with the times it had; it may go into the gap between two recorded ones. */
export const MissedExchange = ({ patient, recorder, entries, onClose }: MissedExchangeProps) => {
  const { ward, policy, state, patientId } = patient;
  const [draft, setDraft, forget] = useDraft<MissedDraft>(`missed-exchange:${patientId}`, NOTHING_MISSED);
  const change = (part: Partial<MissedDraft>) => setDraft({ ...draft, ...part });
  const { missed, missing } = readMissed(draft, { state, policy, mayOverride: patient.mayDo('overrideGuard') });

  const keep = async (exchange: Missed) => {
    const drafts = composeBatch(missedActs(exchange, calledOf(exchange)), {
      patientId,
      visitId: newId(),
      head: stepBefore(entries, beginsAt(exchange)),
    });
    const typed = drafts.map(({ id }) => id);
    if (await recorder.send(drafts, typed)) {
      forget();
      onClose();
    }
  };
  /** Nobody can be called any more before a strong bag that was given. */
  const calledOf = ({ fill }: Missed) => {
    const doubt = fill && pressureQuestion(state, fill.bag.solutionId, fill.startedAt, null, policy);
    return (
      doubt && {
        about: doubt.about,
        by: 'afterwards' as const,
        whom: null,
        words: 'given already, entered afterwards',
      }
    );
  };

  return (
    <aside className={styles.fix} aria-labelledby="missed">
      <h2 id="missed">A missed exchange</h2>
      <Choice
        label="What was done"
        hideLabel
        value={draft.kind}
        onChange={(kind) => change({ kind })}
        options={[
          { value: 'both', label: 'Drain and fill' },
          { value: 'drain', label: 'Drain only' },
          { value: 'fill', label: 'Fill only' },
        ]}
      />
      <WatchedChoice
        label="The patient"
        value={draft.patient}
        onChange={(next) => change({ patient: next })}
        seen={[{ value: 'seen', label: 'Name and birth date were held against the wristband' }]}
      />
      {draft.kind !== 'fill' && (
        <MissedDrain
          draft={draft.drain}
          onChange={(part) => change({ drain: { ...draft.drain, ...part } })}
          settings={policy.settings}
          zone={ward.zone}
        />
      )}
      {draft.kind !== 'drain' && (
        <MissedFill
          draft={draft.fill}
          onChange={(part) => change({ fill: { ...draft.fill, ...part } })}
          items={state.prescription?.items ?? []}
          policy={policy}
          zone={ward.zone}
        />
      )}
      <WatchedChoice
        label="How the patient felt"
        value={draft.comfort}
        onChange={(comfort) => change({ comfort })}
        seen={[
          { value: 'comfortable', label: 'Comfortable, no pain' },
          { value: 'felt', label: 'Something was felt' },
        ]}
      />
      {draft.comfort === 'felt' && <ComfortFields draft={draft.felt} onChange={(felt) => change({ felt })} />}
      <p className="quiet">
        You sign what you choose. “Nobody watched” stands in the record as just that: it is not taken for clear,
        complete or well, and no alert ends by it.
      </p>
      <Acts afterList>
        <Button
          tone="main"
          onPress={() => missed && void keep(missed)}
          disabledBecause={recorder.sending ? 'being sent' : missing === null ? null : `missing: ${missing}`}
        >
          Enter it{missed?.drain?.measured ? `: drained ${formatMl(missed.drain.measured.volumeMl)}` : ''}
        </Button>
        <Button onPress={onClose}>Back</Button>
      </Acts>
    </aside>
  );
};
