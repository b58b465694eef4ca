import { CELL_COUNT_UNITS } from '@slackwater/domain/peritonitis/cell-count-units';
import { formatDate, formatWhole } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { useDraft } from '../../drafts/use-draft.ts';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { Card } from '../observations/card.tsx';
import { DecimalField } from '../observations/decimal-field.tsx';
import { UNIT_WORDS } from '../patient-record/words/work-up-words.ts';
import { CELLS, NO_RESULT, PERCENT, type ResultDraft, readResult } from './result-draft.ts';
import type { AtWorkUp } from './work-up-context.ts';

/** What the laboratory says, as it comes: a part at a time. The count is said back in cells per microlitre. */
export const ResultCard = ({ patient, workUp, sending, closed, keep }: AtWorkUp) => {
  const [draft, setDraft, forget] = useDraft<ResultDraft>(`result:${workUp.id}`, NO_RESULT);
  const [asked, setAsked] = useState(false);
  const change = (part: Partial<ResultDraft>) => {
    setAsked(false);
    setDraft({ ...draft, ...part });
  };
  const { payload, perUl, asks, missing } = readResult(draft, workUp.id);
  const inMicrolitres = perUl === null ? null : `${formatWhole(Math.round(perUl))}/µL`;
  return (
    <Card
      observing={{ sending, closed }}
      title="Result"
      last={workUp.results.length === 0 ? 'none yet' : `${workUp.results.length} reported`}
      action={asks && asked ? `Yes, ${inMicrolitres}` : 'Keep the result'}
      missing={missing.length > 0 ? `missing: ${missing.join(', ')}` : null}
      onKeep={async () => {
        if (asks && !asked) return setAsked(true);
        if (await keep('resultReported', payload)) forget();
      }}
    >
      {workUp.samples.length > 1 && (
        <Choice
          label="Of which sample"
          layout="apart"
          value={draft.sampleId}
          onChange={(sampleId) => change({ sampleId })}
          options={workUp.samples.map(({ id, at }) => ({
            value: id,
            label: `${patient.clock(at)}, ${formatDate(at, patient.ward.zone).slice(0, 6)}`,
          }))}
        />
      )}
      <DecimalField
        label="White cells"
        typed={draft.whiteCells}
        onTyped={(whiteCells) => change({ whiteCells })}
        {...CELLS}
      />
      <Choice
        label="Unit of the count, as the laboratory prints it"
        layout="apart"
        value={draft.unit}
        onChange={(unit) => change({ unit })}
        options={CELL_COUNT_UNITS.map((unit) => ({ value: unit, label: UNIT_WORDS[unit] }))}
      />
      {inMicrolitres && <p role="status">That is {inMicrolitres}.</p>}
      {asks && asked && (
        <p role="alert">
          <b>{inMicrolitres}: right?</b> 100 × 10⁶/L are 100/µL; 100 × 10⁹/L are a thousand times more.
        </p>
      )}
      <DecimalField
        label="Polymorphs"
        typed={draft.polymorphs}
        onTyped={(polymorphs) => change({ polymorphs })}
        {...PERCENT}
      />
      <Field
        label="Gram stain"
        value={draft.gramStain}
        onChange={(gramStain) => change({ gramStain })}
        maxLength={500}
      />
      <Choice
        label="Culture"
        layout="apart"
        value={draft.culture}
        onChange={(culture) => change({ culture })}
        options={[
          { value: 'notInReport', label: 'Not in this report' },
          { value: 'pending', label: 'Pending' },
          { value: 'sterile', label: 'No growth' },
          { value: 'grown', label: 'Grown' },
        ]}
      />
      {draft.culture === 'grown' && (
        <Field
          label="What has grown, with commas between"
          value={draft.organisms}
          onChange={(organisms) => change({ organisms })}
          maxLength={500}
        />
      )}
      <Field label="In words" value={draft.note} onChange={(note) => change({ note })} maxLength={2000} />
    </Card>
  );
};
