import type { OrderContent } from '@slackwater/domain';
import { tooEarlyToDrain } from '@slackwater/domain/dwell/additives-inside';
import { insulinAtOrder } from '@slackwater/domain/prescription/insulin-warnings';
import { serverClock } from '../../api/clock.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';

/** What the order does to something that was added: said before it is given. */
export const orderWarnings = (content: OrderContent, { state, policy, ward }: PatientContext): readonly string[] => {
  const now = serverClock.now();
  const drainAt =
    content.what === 'drainNow' || content.what === 'partialDrain'
      ? now
      : content.what === 'dueAt'
        ? content.dueAt
        : content.what === 'drainAndStayEmpty'
          ? content.drainBy
          : null;
  return [
    drainAt === null ? null : tooEarlyToDrain(state, drainAt, ward.zone),
    insulinAtOrder(state, content, now, policy),
  ].filter((words) => words !== null);
};
