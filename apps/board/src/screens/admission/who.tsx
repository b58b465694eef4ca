import type { PatientsView } from '@slackwater/contract';
import type { PatientIdentity } from '@slackwater/domain';
import { formatIsoDate } from '@slackwater/domain/words/numbers';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { api } from '../../api/client.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import styles from './admission.module.css';
import { birthProblem, type IdentityDraft } from './admission-draft.ts';

const SHORTEST = 2;

/** Looks for a patient whom the hospital knows already, on this ward or not. */
export const KnownPatients = ({
  wardId,
  onChoose,
}: {
  wardId: string;
  onChoose: (patient: PatientIdentity) => void;
}) => {
  const [search, setSearch] = useState('');
  const text = search.trim();
  const found = useQuery({
    queryKey: ['ward', wardId, 'patients', text],
    enabled: text.length >= SHORTEST,
    queryFn: ({ signal }) =>
      api.get<PatientsView>(`/api/wards/${encodeURIComponent(wardId)}/patients?search=${encodeURIComponent(text)}`, {
        signal,
      }),
  });
  const patients = found.data?.patients ?? [];
  return (
    <>
      <Field label="Known already? Name or hospital number" value={search} onChange={setSearch} autoComplete="off" />
      {text.length >= SHORTEST && found.isSuccess && patients.length === 0 && (
        <p className="quiet">Nobody of that name or number.</p>
      )}
      {patients.length > 0 && (
        <ul className={styles.found}>
          {patients.slice(0, 6).map(({ patient, bed }) => (
            <li key={patient.id}>
              <span>
                <b>
                  {patient.family}, {patient.given}
                </b>
                <br />
                <span className="quiet">
                  {formatIsoDate(patient.dateOfBirth)}, {patient.hospitalNumber}
                </span>
              </span>
              <Button onPress={() => onChoose(patient)} disabledBecause={bed === null ? null : `lies in bed ${bed}`}>
                Choose<span className="sr"> {patient.family}</span>
              </Button>
            </li>
          ))}
        </ul>
      )}
    </>
  );
};

type WhoFieldsProps = { draft: IdentityDraft; onChange: (draft: IdentityDraft) => void; today: string };

/** Who a new patient is. */
export const WhoFields = ({ draft, onChange, today }: WhoFieldsProps) => {
  const set = (part: Partial<IdentityDraft>) => onChange({ ...draft, ...part });
  return (
    <>
      <div className={styles.two}>
        <Field
          label="Family name"
          value={draft.family}
          onChange={(family) => set({ family })}
          maxLength={80}
          autoComplete="off"
        />
        <Field
          label="Given name"
          value={draft.given}
          onChange={(given) => set({ given })}
          maxLength={80}
          autoComplete="off"
        />
        <Field
          label="Born"
          value={draft.dateOfBirth}
          onChange={(dateOfBirth) => set({ dateOfBirth })}
          hint="year-month-day"
          inputMode="numeric"
          autoComplete="off"
          problem={birthProblem(draft.dateOfBirth, today)}
        />
        <Field
          label="Gender"
          value={draft.gender}
          onChange={(gender) => set({ gender })}
          maxLength={40}
          autoComplete="off"
        />
      </div>
      <Field
        label="Hospital number"
        value={draft.hospitalNumber}
        onChange={(hospitalNumber) => set({ hospitalNumber })}
        maxLength={40}
        autoComplete="off"
      />
      <div className={styles.two}>
        <Field
          label="Allergy"
          value={draft.allergy}
          onChange={(allergy) => set({ allergy })}
          maxLength={500}
          hint="left empty: none known"
        />
        <Field
          label="Isolation"
          value={draft.isolation}
          onChange={(isolation) => set({ isolation })}
          maxLength={200}
          hint="left empty: none"
        />
      </div>
      <Field
        label="Standing cautions, separated by commas"
        value={draft.cautions}
        onChange={(cautions) => set({ cautions })}
        maxLength={600}
        hint="left empty: none"
      />
    </>
  );
};
