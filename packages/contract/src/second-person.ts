import type { Draft, EpochMs } from '@slackwater/domain';
import { additiveCheckDraft } from './entries/batch.ts';
import { instant, wardId } from './primitives.ts';
import { signIn } from './session.ts';

/**
 * `POST /api/second-person`: a check of what is added to a bag, signed by a second person with their own sign-in on the
 * device of the first, whose session stays as it is.
 */
export const secondPerson = signIn.extend({ wardId, deviceAt: instant, entry: additiveCheckDraft });
export type SecondPerson = {
  login: string;
  password: string;
  wardId: string;
  deviceAt: EpochMs;
  entry: Draft<'additiveChecked'>;
};
