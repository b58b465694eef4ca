import type { EpochMs } from '@slackwater/domain';
import { MINUTE_MS } from '@slackwater/domain/time/instant';

/** What may be said in one touch; anything longer ago is typed in the record. Minutes. */
export const AGO_MINUTES: readonly number[] = [0, 2, 5, 10];

/** The choices that do not lie before the step that this one follows. */
export const agoChoices = (from: EpochMs, notBefore: EpochMs | null): readonly number[] =>
  AGO_MINUTES.filter((minutes) => notBefore === null || from - minutes * MINUTE_MS >= notBefore);
