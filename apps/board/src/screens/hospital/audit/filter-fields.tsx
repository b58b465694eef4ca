import type { Account } from '@slackwater/contract';
import { useState } from 'react';
import { Button } from '../../../ui/button.tsx';
import { Field } from '../../../ui/field.tsx';
import { Select } from '../../../ui/select.tsx';
import styles from './audit.module.css';
import { daysProblem, NO_FILTER, type TypedFilter } from './audit-filter.ts';
import { AUDIT_KINDS, AUDIT_WORDS } from './audit-words.ts';

type FilterFieldsProps = {
  accounts: readonly Account[];
  wards: readonly { wardId: string; wardName: string }[];
  isLooking: boolean;
  onSearch: (filter: TypedFilter) => void;
};

/** What to look for. Nothing is asked before the press: each search is itself noted. */
export const FilterFields = ({ accounts, wards, isLooking, onSearch }: FilterFieldsProps) => {
  const [typed, setTyped] = useState(NO_FILTER);
  const set = (key: keyof TypedFilter) => (value: string) => setTyped((before) => ({ ...before, [key]: value }));
  const problem = daysProblem(typed);
  return (
    <form
      className={styles.filter}
      onSubmit={(event) => {
        event.preventDefault();
        if (problem === null) onSearch(typed);
      }}
    >
      <Select
        label="Person"
        value={typed.accountId}
        onChange={set('accountId')}
        options={optionsOf(
          'Everybody',
          accounts.map(({ id, name, login }) => [id, `${name}, ${login}`]),
        )}
      />
      <Field
        label="Patient’s hospital number"
        value={typed.hospitalNumber}
        onChange={set('hospitalNumber')}
        maxLength={40}
        autoComplete="off"
      />
      <Select
        label="Ward"
        value={typed.wardId}
        onChange={set('wardId')}
        options={optionsOf(
          'Every ward, and none',
          wards.map(({ wardId, wardName }) => [wardId, wardName]),
        )}
      />
      <Select
        label="What"
        value={typed.kind}
        onChange={set('kind')}
        options={optionsOf(
          'Everything',
          AUDIT_KINDS.map((kind) => [kind, AUDIT_WORDS[kind]]),
        )}
      />
      <Field label="From" type="date" value={typed.fromDay} onChange={set('fromDay')} />
      <Field label="To, that day included" type="date" value={typed.toDay} onChange={set('toDay')} />
      <Button tone="main" type="submit" disabledBecause={problem ?? (isLooking ? 'looking' : null)}>
        Search
      </Button>
    </form>
  );
};

type Named = readonly (readonly [value: string, label: string])[];

/** What may be looked for, after everything. */
const optionsOf = (all: string, named: Named) => [
  { value: '', label: all },
  ...named.map(([value, label]) => ({ value, label })),
];
