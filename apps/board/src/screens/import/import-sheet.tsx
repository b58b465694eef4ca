import type { ImportAnswer, WardView } from '@slackwater/contract';
import { formatWhole } from '@slackwater/domain/words/numbers';
import { useMutation } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { ApiProblem, wordsOf } from '../../api/problems.ts';
import { Button } from '../../ui/button.tsx';
import { BadRows } from './bad-rows.tsx';
import styles from './import.module.css';
import { sendSheet } from './send-sheet.ts';

const COLUMNS =
  'ward, hospital_number, drain_start, drain_end, drained_ml, appearance, fill_start, fill_end, filled_ml, solution, note';

/** Choose a file, bring it in, read what became of it: all of it, or what is wrong with which line. */
export const ImportSheet = ({ ward, mayNot }: { ward: WardView; mayNot: string | null }) => {
  const id = useId();
  const [file, setFile] = useState<File | null>(null);
  const bring = useMutation({ mutationFn: (sheet: File) => sendSheet(ward.id, sheet) });
  const cannot = mayNot ?? (file === null ? 'Choose a file first' : bring.isPending ? 'Being read and judged' : null);
  return (
    <>
      <div className={styles.lead}>
        <p>
          One line an exchange, in a CSV file (UTF-8) whose first line names these columns: <code>{COLUMNS}</code>. The
          ward is <code>{ward.id}</code>. Times are ISO 8601 with their offset (<code>2026-10-05T07:49+01:00</code>),
          volumes whole mL; an empty volume means not measured, never zero.
        </p>
        <p>
          The sheet comes in whole or not at all, and the same sheet twice changes nothing. It brings in the past only:
          patients must be known, it raises no alert, and what is inside a patient on the ward now is entered at the
          bedside. Look at a few patients’ rounds pages afterwards; a wrong line is corrected in that patient’s record.
        </p>
      </div>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          if (cannot === null && file !== null) bring.mutate(file);
        }}
      >
        <label htmlFor={id}>Flow sheet</label>
        <input
          id={id}
          type="file"
          accept=".csv,text/csv"
          onChange={(event) => {
            setFile(event.target.files?.[0] ?? null);
            bring.reset();
          }}
        />
        <Button tone="main" type="submit" disabledBecause={cannot}>
          Bring it in
        </Button>
      </form>
      <div role="status">{bring.isSuccess && <p className={styles.done}>{doneWords(bring.data)}</p>}</div>
      {bring.isError && (
        <section aria-label="What is wrong">
          <p role="alert" className={styles.wrong}>
            {wordsOf(bring.error)}
          </p>
          {bring.error instanceof ApiProblem && bring.error.errors.length > 0 && (
            <BadRows problems={bring.error.errors} />
          )}
        </section>
      )}
    </>
  );
};

function doneWords({ rows, added, known, patients }: ImportAnswer): string {
  const came = `${formatWhole(added)} of ${formatWhole(rows)} lines came in, for ${formatWhole(patients)} patients.`;
  return known === 0 ? came : `${came} ${formatWhole(known)} stood in the record already.`;
}
