import type { Account } from '@slackwater/contract';
import { useId, useState } from 'react';
import { Button } from '../../../ui/button.tsx';
import { Field } from '../../../ui/field.tsx';
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
      <Choice
        label="Person"
        all="Everybody"
        value={typed.accountId}
        onChange={set('accountId')}
        options={accounts.map(({ id, name, login }) => [id, `${name}, ${login}`])}
      />
      <Field
        label="Patient’s hospital number"
        value={typed.hospitalNumber}
        onChange={set('hospitalNumber')}
        maxLength={40}
        autoComplete="off"
      />
      <Choice
        label="Ward"
        all="Every ward, and none"
        value={typed.wardId}
        onChange={set('wardId')}
        options={wards.map(({ wardId, wardName }) => [wardId, wardName])}
      />
      <Choice
        label="What"
        all="Everything"
        value={typed.kind}
        onChange={set('kind')}
        options={AUDIT_KINDS.map((kind) => [kind, AUDIT_WORDS[kind]])}
      />
      <Field label="From" type="date" value={typed.fromDay} onChange={set('fromDay')} />
      <Field label="To, that day included" type="date" value={typed.toDay} onChange={set('toDay')} />
      <Button tone="main" type="submit" disabledBecause={problem ?? (isLooking ? 'looking' : null)}>
        Search
      </Button>
    </form>
  );
};

type ChoiceProps = {
  label: string;
  all: string;
  value: string;
  onChange: (value: string) => void;
  options: readonly (readonly [value: string, words: string])[];
};

const Choice = ({ label, all, value, onChange, options }: ChoiceProps) => {
  const id = useId();
  return (
    <div className={styles.choice}>
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value)}>
        <option value="">{all}</option>
        {options.map(([key, words]) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
};
