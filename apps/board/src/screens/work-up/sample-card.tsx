import { drainsHeld, dwellMinutesBefore } from '@slackwater/domain/peritonitis/opens-work-up';
import { sampleAdvice } from '@slackwater/domain/peritonitis/work-up-standing';
import { SAMPLE_TESTS, type SampleTest } from '@slackwater/domain/peritonitis/work-up-terms';
import { ADVICE_WORDS } from '@slackwater/domain/peritonitis/work-up-words';
import { formatDate, formatMinutes } from '@slackwater/domain/words/numbers';
import { useDraft } from '../../drafts/use-draft.ts';
import { Choice, Choices } from '../../ui/choice.tsx';
import { readDigits } from '../../ui/digits.ts';
import { Field } from '../../ui/field.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import { Source } from '../bedside/shared/facts.tsx';
import { Card } from '../observations/card.tsx';
import { TEST_WORDS } from '../patient-record/words/work-up-words.ts';
import type { AtWorkUp } from './work-up-context.ts';

const BOTTLES = { least: 0, most: 10, unit: '' };
/** A sample that is from no drain in sight: taken at the transfer set, or after a rinse. */
const ANOTHER = 'another';
const DRAINS_SHOWN = 3;

/** What was taken, from which drain, and whether before an antibiotic. The dwell comes from the record. */
export const SampleCard = ({ patient, workUp, sending, closed, keep }: AtWorkUp) => {
  const { state, clock, ward } = patient;
  const held = drainsHeld(state).map(({ drain, dwell }) => ({ drain, minutes: dwellMinutesBefore(drain, dwell) }));
  const opener = held.some(({ drain }) => drain.entryId === workUp.drainId)
    ? []
    : [{ drain: { entryId: workUp.drainId, startedAt: workUp.drainStartedAt }, minutes: workUp.dwellMinutes }];
  const drains = [...held.slice(0, DRAINS_SHOWN), ...opener];
  const [draft, setDraft, forget] = useDraft(`sample:${workUp.id}`, {
    tests: [] as readonly SampleTest[],
    // The first sample is of the bag that was kept; a later one of a later drain.
    from: workUp.samples.length === 0 ? workUp.drainId : (drains[0]?.drain.entryId ?? workUp.drainId),
    bottles: '',
    antibiotic: null as 'before' | 'after' | null,
    keptWhere: '',
    note: '',
  });
  const change = (part: Partial<typeof draft>) => setDraft({ ...draft, ...part });
  const chosen = drains.find(({ drain }) => drain.entryId === draft.from) ?? null;
  const dwellMinutes = chosen?.minutes ?? null;
  const bottles = readDigits(draft.bottles, BOTTLES).value;
  const advice = sampleAdvice(dwellMinutes, chosen === null && state.cavity.state === 'empty');
  const missing = [
    draft.tests.length === 0 ? 'what was sent' : null,
    bottles === null ? 'how many bottles' : null,
    draft.antibiotic === null ? 'before an antibiotic or after' : null,
  ].filter((one) => one !== null);
  return (
    <Card
      observing={{ sending, closed }}
      title="Sample"
      last={workUp.samples.length === 0 ? 'none taken yet' : `${workUp.samples.length} taken`}
      action="Sample taken"
      missing={missing.length > 0 ? `missing: ${missing.join(', ')}` : null}
      onKeep={async () => {
        if (bottles === null) return;
        const payload = {
          workUpId: workUp.id,
          tests: draft.tests,
          drainId: chosen?.drain.entryId ?? null,
          dwellMinutes,
          bottles,
          beforeAntibiotic: draft.antibiotic === 'before',
          bagKeptWhere: draft.keptWhere.trim() || null,
          note: draft.note.trim() || null,
        };
        if (await keep('sampleTaken', payload)) forget();
      }}
    >
      <Choices
        label="What was sent"
        layout="apart"
        values={draft.tests}
        onChange={(tests) => change({ tests })}
        options={SAMPLE_TESTS.map((test) => ({ value: test, label: TEST_WORDS[test] }))}
      />
      <Choice
        label="From which drain"
        layout="apart"
        value={chosen ? draft.from : ANOTHER}
        onChange={(from) => change({ from })}
        options={[
          ...drains.map(({ drain, minutes }) => ({
            value: drain.entryId,
            label: `${clock(drain.startedAt)}, ${formatDate(drain.startedAt, ward.zone).slice(0, 6)}`,
            detail: minutes === null ? 'dwell not known' : `dwelt ${formatMinutes(minutes)}`,
          })),
          { value: ANOTHER, label: 'Another' },
        ]}
      />
      <p>{ADVICE_WORDS[advice]}</p>
      <Source>ISPD, quoting the 2016 text.</Source>
      <NumberField
        label="Blood-culture bottles inoculated, 5–10 mL each"
        typed={draft.bottles}
        onTyped={(typed) => change({ bottles: typed })}
        {...BOTTLES}
      />
      <Choice
        label="Antibiotic"
        value={draft.antibiotic}
        onChange={(antibiotic) => change({ antibiotic })}
        options={[
          { value: 'before', label: 'Before any' },
          { value: 'after', label: 'After one' },
        ]}
      />
      <Field
        label="Where the bag is kept"
        value={draft.keptWhere}
        onChange={(keptWhere) => change({ keptWhere })}
        maxLength={200}
      />
      <Field label="In words" value={draft.note} onChange={(note) => change({ note })} maxLength={2000} />
    </Card>
  );
};
