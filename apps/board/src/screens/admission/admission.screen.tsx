import type { AdmissionAnswer } from '@slackwater/contract';
import type { PatientIdentity } from '@slackwater/domain';
import { dateAt } from '@slackwater/domain/time/zone';
import { formatIsoDate } from '@slackwater/domain/words/numbers';
import { useMutation, useQueryClient, useSuspenseQuery } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { Link, useNavigate, useParams } from 'react-router';
import { api } from '../../api/client.ts';
import { serverClock } from '../../api/clock.ts';
import { draft as entryDraft, sendEntries } from '../../api/entries.ts';
import { newId } from '../../api/ids.ts';
import { ApiProblem, wordsOf } from '../../api/problems.ts';
import { bedsQuery, wardQuery } from '../../api/queries.ts';
import { queryClient } from '../../api/query-client.ts';
import { useMay, useSession } from '../../api/use-session.ts';
import { familyName } from '../../components/names.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { Notice } from '../../ui/notice.tsx';
import { Acts } from '../bedside/shared/acts.tsx';
import styles from './admission.module.css';
import { EMPTY_IDENTITY, EMPTY_INSIDE, readIdentity, readInside } from './admission-draft.ts';
import { CautionsAsked, cautionsSaid, NOT_ASKED } from './cautions-asked.tsx';
import { InsideNow } from './inside-now.tsx';
import { KnownPatients, WhoFields } from './who.tsx';

export const loader = async ({ params }: { params: Readonly<Record<string, string | undefined>> }) => {
  const wardId = params.ward ?? '';
  await Promise.all([queryClient.ensureQueryData(wardQuery(wardId)), queryClient.fetchQuery(bedsQuery(wardId))]);
  return null;
};

const EMPTY = {
  /** Kept with the form: admitting the same twice makes one patient. */
  id: '',
  known: null as PatientIdentity | null,
  who: EMPTY_IDENTITY,
  bed: null as string | null,
  dialysis: null as 'chronic' | 'acute' | null,
  cautions: NOT_ASKED,
  inside: EMPTY_INSIDE,
};

/** A new patient, or one whom the hospital knows: bed, and what is inside now. Nothing counts before it is signed. */
export const Component = () => {
  const wardId = useParams().ward ?? '';
  const ward = useSuspenseQuery(wardQuery(wardId)).data;
  const beds = useSuspenseQuery(bedsQuery(wardId)).data.beds;
  const session = useSession();
  const mayAdmit = useMay(wardId, 'admitAndMove');
  const queries = useQueryClient();
  const navigate = useNavigate();
  const [ids] = useState(() => ({ patient: newId(), entry: newId() }));
  const [draft, setDraft, forget] = useDraft(`admission-form:${wardId}`, { ...EMPTY, id: ids.patient });
  const change = (part: Partial<typeof EMPTY>) => setDraft({ ...draft, ...part });

  const today = dateAt(serverClock.now(), ward.zone);
  const identity = draft.known ?? readIdentity(draft.who, draft.id || ids.patient, today);
  const { inside, missing: insideMissing } = readInside(draft.inside, ward.zone, ward.policy.settings.filledMostMl);
  const free = beds.filter((one) => one.patientId === null).map((one) => one.bed);
  const missing = [
    identity ? null : 'who: all five fields',
    draft.bed === null ? 'the bed' : null,
    draft.dialysis === null ? 'chronic or acute' : null,
    insideMissing,
  ].filter((one) => one !== null);

  /** Set once the admission stands: if what follows it fails, the next press does not admit again. */
  const admitted = useRef<string | null>(null);
  const admit = async (): Promise<string> => {
    if (!identity || !inside || draft.bed === null || draft.dialysis === null)
      throw new Error('The form is not complete.');
    const payload = { bed: draft.bed, inside, dialysis: draft.dialysis };
    const admission = entryDraft('admitted', payload, { patientId: identity.id, id: ids.entry });
    if (draft.known) {
      await sendEntries(wardId, [admission]);
      return identity.id;
    }
    const answer = await api.post<AdmissionAnswer>('/api/patients', {
      identity,
      wardId,
      deviceAt: serverClock.now(),
      admission,
    });
    return answer.patient.id;
  };
  const admitting = useMutation({
    mutationFn: async () => {
      const patientId = admitted.current ?? (await admit());
      admitted.current = patientId;
      const said = cautionsSaid(draft.cautions).map((payload) => entryDraft('caution', payload, { patientId }));
      if (said.length > 0) await sendEntries(wardId, said);
      return patientId;
    },
    onSuccess: async (patientId) => {
      forget();
      await queries.invalidateQueries({ queryKey: ['ward', wardId] });
      navigate(paths.prescription(patientId));
    },
  });
  const problem = admitting.error;
  const words =
    problem instanceof ApiProblem && problem.errors.length > 0
      ? problem.errors.map((error) => error.message).join(' ')
      : problem && wordsOf(problem);

  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <div>
          <h1>Admit to {ward.name}</h1>
          <p className="quiet">{ward.hospital}. Nothing counts before it is signed below.</p>
        </div>
        <Link to={paths.board(wardId)}>To the ward</Link>
      </header>
      {words && (
        <Notice tone="ink" urgent>
          <span>
            <b>{admitted.current ? 'Admitted; what was said of the patient is not kept yet.' : 'Not admitted.'}</b>{' '}
            {words}
          </span>
        </Notice>
      )}
      <main className={styles.columns}>
        <section aria-labelledby="who">
          <h2 id="who">Who</h2>
          {draft.known ? (
            <div className={styles.said}>
              <p>
                <b>
                  {draft.known.family}, {draft.known.given}
                </b>
                , {formatIsoDate(draft.known.dateOfBirth)}, {draft.known.hospitalNumber}
              </p>
              <Button tone="text" onPress={() => change({ known: null })}>
                Somebody else
              </Button>
            </div>
          ) : (
            <>
              <KnownPatients wardId={wardId} onChoose={(known) => change({ known })} />
              <WhoFields draft={draft.who} onChange={(who) => change({ who })} today={today} />
            </>
          )}
          <Choice
            label="Bed"
            layout="apart"
            value={draft.bed}
            onChange={(bed) => change({ bed })}
            options={free.map((bed) => ({ value: bed, label: bed }))}
          />
          {free.length === 0 && <p>No bed is free.</p>}
          <Choice
            label="Dialysis"
            value={draft.dialysis}
            onChange={(dialysis) => change({ dialysis })}
            options={[
              { value: 'chronic', label: 'Chronic' },
              { value: 'acute', label: 'Acute' },
            ]}
          />
          <CautionsAsked draft={draft.cautions} onChange={(cautions) => change({ cautions })} />
        </section>
        <section aria-labelledby="inside">
          <h2 id="inside">What is inside now?</h2>
          <InsideNow
            draft={draft.inside}
            onChange={(next) => change({ inside: next })}
            formulary={ward.policy.formulary}
            zone={ward.zone}
            filledMostMl={ward.policy.settings.filledMostMl}
          />
          <Acts>
            <Button
              tone="main"
              onPress={() => admitting.mutate()}
              disabledBecause={
                !mayAdmit
                  ? 'the charge nurse admits'
                  : admitting.isPending
                    ? 'being sent'
                    : missing.length > 0
                      ? `missing: ${missing.join(', ')}`
                      : null
              }
            >
              Admit and sign as {familyName(session.account.name)}
            </Button>
            <Button onPress={() => navigate(paths.board(wardId))}>Back</Button>
          </Acts>
        </section>
      </main>
    </div>
  );
};
