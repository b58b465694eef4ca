import type { BedsideView, Session, WardView } from '@slackwater/contract';
import type { BedsideState, EpochMs, Permission, Role, WardPolicy } from '@slackwater/domain';
import { may } from '@slackwater/domain/access/permissions';
import { formatClock } from '@slackwater/domain/words/numbers';
import { useSuspenseQuery } from '@tanstack/react-query';
import { useParams } from 'react-router';
import { bedsideQuery, wardQuery } from '../../../api/queries.ts';
import { roleOn, useSession } from '../../../api/use-session.ts';
import { usePredicted } from '../../../outbox/use-predicted.ts';

/** What every screen of one patient stands on. */
export type PatientContext = {
  patientId: string;
  view: BedsideView;
  /** With what waits on this device. */
  state: BedsideState;
  ward: WardView;
  policy: WardPolicy;
  session: Session;
  /** The person's role on the patient's ward; null where they have none. */
  role: Role | null;
  mayDo: (permission: Permission) => boolean;
  /** A clock time in the ward's zone. */
  clock: (at: EpochMs) => string;
};

/** Reads the patient of the address. Only behind `loadPatient`, so everything is there. */
export const usePatient = (): PatientContext => {
  const patientId = useParams().id ?? '';
  const view = useSuspenseQuery(bedsideQuery(patientId)).data;
  const ward = useSuspenseQuery(wardQuery(view.wardId)).data;
  const session = useSession();
  const state = usePredicted(view.state, ward.policy);
  const role = roleOn(session, view.wardId);
  return {
    patientId,
    view,
    state,
    ward,
    policy: ward.policy,
    session,
    role,
    mayDo: (permission) => role !== null && may(role, permission),
    clock: (at) => formatClock(at, ward.zone),
  };
};
