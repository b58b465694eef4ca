import type { NewWard } from '@slackwater/contract';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api } from '../../api/client.ts';
import { ApiProblem, wordsOf } from '../../api/problems.ts';
import { sessionQuery } from '../../api/queries.ts';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { readDigits } from '../../ui/digits.ts';
import { Field } from '../../ui/field.tsx';
import { NumberField } from '../../ui/number-field.tsx';
import styles from './hospital.module.css';

const BEDS = { least: 1, most: 200, unit: 'beds' };

/** "Kestrel Ward" → `kestrel-ward`: how the ward stands in addresses. */
const slugOf = (name: string): string =>
  name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40);

export const NewWardDialog = ({ onClose }: { onClose: () => void }) => {
  const queries = useQueryClient();
  const [name, setName] = useState('');
  const [zone, setZone] = useState(() => Intl.DateTimeFormat().resolvedOptions().timeZone);
  const [day, setDay] = useState('07:00');
  const [night, setNight] = useState('19:00');
  const [beds, setBeds] = useState('');
  const count = readDigits(beds, BEDS).value;
  const make = useMutation({
    mutationFn: (ward: NewWard) => api.post<{ id: string }>('/api/wards', ward),
    onSuccess: async () => {
      await queries.refetchQueries({ queryKey: sessionQuery.queryKey });
      onClose();
    },
  });
  const problemOf = (field: string): string | null =>
    (make.error instanceof ApiProblem && make.error.errors.find((error) => error.field.includes(field))?.message) ||
    null;
  const missing = slugOf(name) === '' ? 'Write the name' : count === null ? 'Say how many beds' : null;
  return (
    <Dialog title="Open a ward" onClose={onClose}>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          if (missing !== null || count === null) return;
          const numbers = Array.from({ length: count }, (_, index) => String(index + 1));
          make.mutate({
            id: slugOf(name),
            name: name.trim(),
            zone: zone.trim(),
            shiftStarts: [day, night],
            beds: numbers,
          });
        }}
      >
        <Field label="Name" value={name} onChange={setName} problem={problemOf('name') ?? problemOf('id')} autoFocus />
        <NumberField
          label="Beds, numbered from 1"
          typed={beds}
          onTyped={setBeds}
          {...BEDS}
          problem={problemOf('beds')}
        />
        <Field
          label="Time zone"
          hint="IANA name, such as Europe/London: ward days and shifts are told by it"
          value={zone}
          onChange={setZone}
          problem={problemOf('zone')}
        />
        <Field label="Day shift begins, and with it the ward day" type="time" value={day} onChange={setDay} />
        <Field
          label="Night shift begins"
          type="time"
          value={night}
          onChange={setNight}
          problem={problemOf('shiftStarts')}
        />
        {make.isError && (
          <p className={styles.problem} role="alert">
            {wordsOf(make.error)}
          </p>
        )}
        <div className={styles.ways}>
          <Button tone="main" type="submit" disabledBecause={make.isPending ? 'Sending' : missing}>
            Open the ward
          </Button>
          <Button onPress={onClose}>Back</Button>
        </div>
      </form>
    </Dialog>
  );
};
