import type { Draft, EpochMs } from '@slackwater/domain';
import type { OutboxNow } from '../../outbox/outbox.ts';
import { KIND_WORDS } from '../../screens/bedside/model/step-words.ts';

export const entriesOf = ({ waiting }: Pick<OutboxNow, 'waiting'>): number =>
  waiting.reduce((sum, { touch }) => sum + touch.drafts.length, 0);

export const entryCount = (count: number): string => (count === 1 ? '1 entry' : `${count} entries`);

/** What one touch says: the same words as in the record. */
export const touchWords = (drafts: readonly Draft[]): string => drafts.map(({ kind }) => KIND_WORDS[kind]).join(', ');

/** Hours, minutes and seconds, to see that something is still tried. */
export const clockWithSeconds = (at: EpochMs, zone: string): string =>
  new Intl.DateTimeFormat('en-GB', { timeStyle: 'medium', timeZone: zone }).format(at);
