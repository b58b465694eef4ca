import type { Appearance, Payloads } from '@slackwater/domain';
import { formatMl } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import { serverClock } from '../../../api/clock.ts';
import { familyName } from '../../../components/names.ts';
import { useDraft } from '../../../drafts/use-draft.ts';
import { paths } from '../../../paths.ts';
import { Button } from '../../../ui/button.tsx';
import { Choice } from '../../../ui/choice.tsx';
import { Field } from '../../../ui/field.tsx';
import { useBedside } from '../bedside-context.ts';
import { act } from '../model/batch.ts';
import { bagsWithoutFate } from '../model/place.ts';
import { appearanceWords, mustKeep } from '../model/words.ts';
import { MeasureFields } from '../reading/measure-fields.tsx';
import { type MeasureDraft, readMeasure } from '../reading/measure-form.ts';
import { Acts } from '../shared/acts.tsx';
import { AppearanceChoices } from '../shared/appearance-choices.tsx';
import { By, Heading } from '../shared/heading.tsx';
import { Tick } from '../shared/tick.tsx';
import { Undo } from '../shared/undo.tsx';
import { problemAt } from '../shared/use-record.ts';
import { Started } from '../shared/when.tsx';
import styles from './finish.module.css';
import { NextDue } from './next-due.tsx';

type FinishDraft = {
  how: 'asRead' | 'scale' | 'jug';
  measure: MeasureDraft;
  fate: 'discarded' | 'kept' | null;
  keptWhere: string;
  sampleSent: boolean;
  /** Of a drain of which nobody has said how it looked. */
  appearance: readonly Appearance[];
  nobodyLooked: boolean;
};

/** Block 6: the exact measure, the bag's fate, the signature. It never holds up the next exchange. */
export const Finish = ({ onNext }: { onNext: () => void }) => {
  const { state, policy, patientId, view, session, record, sending, failure, entries } = useBedside();
  const navigate = useNavigate();
  const visit = state.lastVisit;
  const open = visit ? bagsWithoutFate(visit) : [];
  const number = open[0] ?? 1;
  const drain = visit?.drains[number - 1];
  const isLooked = (drain?.appearance.length ?? 0) > 0;
  const [draft, setDraft, forget] = useDraft<FinishDraft>(`finish:${patientId}:${visit?.id ?? ''}:${number}`, {
    how: drain?.readingMl === null ? 'scale' : 'asRead',
    measure: { method: 'scale', gross: '', tare: '', volume: '', flushIncluded: true },
    fate: isLooked ? 'discarded' : null,
    keptWhere: '',
    sampleSent: false,
    appearance: [],
    nobodyLooked: false,
  });
  const change = (part: Partial<FinishDraft>) => setDraft({ ...draft, ...part });
  const [lookedAgain, setLookedAgain] = useState(false);
  if (!visit || !drain) return null;

  const seen = isLooked ? drain.appearance : draft.appearance;
  const keepIt = mustKeep(seen);
  const method = draft.how === 'jug' ? ('jug' as const) : ('scale' as const);
  const measured = readMeasure({ ...draft.measure, method }, number, 'exact', policy.settings);
  const exact = draft.how === 'asRead' ? null : measured;
  const apart = exact?.volumeMl != null && drain.readingMl !== null ? Math.abs(exact.volumeMl - drain.readingMl) : 0;
  const asks = apart >= policy.settings.measuresApartMl;
  const fate = keepIt ? 'kept' : draft.fate;
  const closeId = entries.find((entry) => entry.visitId === visit.id && entry.kind === 'close')?.id;

  const missing = [
    draft.how === 'asRead' && drain.readingMl === null ? 'a measure: there is no reading' : null,
    exact && exact.volumeMl === null ? 'the measure' : null,
    seen.length === 0 && !draft.nobodyLooked ? 'how it looked' : null,
    fate === null ? 'what became of the bag' : null,
    fate === 'kept' && draft.keptWhere.trim() === '' ? 'where the bag is kept' : null,
    keepIt && !draft.sampleSent ? 'that the sample went' : null,
  ].filter((one) => one !== null);

  const finish = async () => {
    if (asks && !lookedAgain) return setLookedAgain(true);
    const at = serverClock.now();
    const bag: Payloads['bagFate'] =
      fate === 'kept'
        ? { drain: number, fate: 'kept', keptWhere: draft.keptWhere.trim(), sampleSent: draft.sampleSent }
        : { drain: number, fate: 'discarded' };
    const looked =
      isLooked || seen.length === 0 ? [] : [act('appearance', { drain: number, appearance: seen, note: null }, at)];
    const acts = [...looked, ...(exact?.measure ? [act('measure', exact.measure, at)] : []), act('bagFate', bag, at)];
    if (await record(acts, visit.id)) {
      forget();
      if (open.length <= 1) navigate(paths.board(view.wardId));
    }
  };

  return (
    <>
      <Heading
        title={
          visit.drains.length > 1 ? `Measure exactly: drain ${number} of ${visit.drains.length}` : 'Measure exactly'
        }
      >
        <Choice
          label="How measured"
          hideLabel
          value={draft.how}
          onChange={(how) => {
            setLookedAgain(false);
            change({ how });
          }}
          options={[
            { value: 'scale', label: 'Scale' },
            { value: 'jug', label: 'Measuring jug' },
            { value: 'asRead', label: 'As read' },
          ]}
        />
      </Heading>
      {draft.how === 'asRead' ? (
        <p className={styles.read}>{drain.readingMl === null ? 'no reading was kept' : formatMl(drain.readingMl)}</p>
      ) : (
        <MeasureFields
          draft={{ ...draft.measure, method }}
          measured={measured}
          onChange={(part) => {
            setLookedAgain(false);
            change({ measure: { ...draft.measure, ...part } });
          }}
          problem={problemAt(failure, 'grossG') ?? problemAt(failure, 'volumeMl')}
        >
          <p className="quiet">
            {drain.readingMl === null ? 'No reading was kept before.' : `Read before: ${formatMl(drain.readingMl)}.`}{' '}
            From {formatMl(policy.settings.measuresApartMl)} apart it asks to look again.
          </p>
        </MeasureFields>
      )}
      {asks && drain.readingMl !== null && exact?.volumeMl != null && (
        <p className={styles.asks} role="alert">
          <b>{formatMl(apart)} apart: look again.</b> {formatMl(drain.readingMl)} was read, {formatMl(exact.volumeMl)}{' '}
          measured. Is the flush in it? {lookedAgain ? 'The measure will replace the reading.' : ''}
        </p>
      )}
      {!isLooked && (
        <>
          <By>Nobody has said how it looked</By>
          {!draft.nobodyLooked && (
            <AppearanceChoices hideLabel values={draft.appearance} onChange={(appearance) => change({ appearance })} />
          )}
          <Tick checked={draft.nobodyLooked} onChange={(nobodyLooked) => change({ nobodyLooked, appearance: [] })}>
            Nobody looked: it stays not known, and is not taken for clear
          </Tick>
        </>
      )}
      <By>The drain bag</By>
      {keepIt ? (
        <p>
          <b>It was {appearanceWords(seen)}: the bag is kept.</b> Say where, and that the sample went, before it is
          closed.
        </p>
      ) : (
        <Choice
          label="The drain bag"
          hideLabel
          layout="apart"
          value={draft.fate}
          onChange={(next) => change({ fate: next })}
          options={[
            { value: 'discarded', label: 'Discarded' },
            { value: 'kept', label: 'Kept, for a sample' },
          ]}
        />
      )}
      {fate === 'kept' && (
        <div className={styles.kept}>
          <Field
            label="Kept where"
            value={draft.keptWhere}
            onChange={(keptWhere) => change({ keptWhere })}
            maxLength={200}
          />
          <Tick checked={draft.sampleSent} onChange={(sampleSent) => change({ sampleSent })}>
            Sample went to the laboratory
          </Tick>
        </div>
      )}
      <NextDue />
      {closeId && <Started label="Closed" entryIds={[closeId]} notBefore={null} />}
      <Acts>
        <Button
          tone="main"
          onPress={() => void finish()}
          disabledBecause={sending ? 'being sent' : missing.length > 0 ? `missing: ${missing.join(', ')}` : null}
        >
          {asks && lookedAgain
            ? `Looked again: ${formatMl(exact?.volumeMl ?? 0)}`
            : `Finish and sign as ${familyName(session.account.name)}`}
        </Button>
        <Button onPress={onNext}>Later</Button>
        <Undo />
      </Acts>
    </>
  );
};
