import type { Role } from '../access/roles.ts';
import { judge } from '../exchange/judge.ts';
import type { Draft, EntryKind, Payloads } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import { type Course, minute, PATIENT } from './course.ts';

/** In minutes of the course: when it happened, and when it is entered. */
type Entered = { at: number; now?: number; role?: Role; visitId: string | null };

/** What the domain finds wrong with one more entry of a course. */
export function judged<K extends EntryKind>(
  course: Course,
  kind: K,
  payload: Payloads[K],
  { at, now = at, role = 'nurse', visitId }: Entered,
): readonly Problem[] {
  const draft = {
    id: 'new',
    kind,
    format: 1,
    payload,
    patientId: PATIENT,
    visitId,
    happenedAt: minute(at),
    after: null,
  };
  const context = { now: minute(now), policy: course.policy, actor: { accountId: 'somebody', role } };
  return judge(course.state(), draft as unknown as Draft, context);
}
