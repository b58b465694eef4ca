import type { Payloads } from '@slackwater/domain';

/** What was done to the catheter, after the word itself: "Catheter: transfer set changed". */
export const CATHETER_WORDS: Readonly<Record<Payloads['catheter']['event'], string>> = {
  inserted: 'inserted',
  firstUse: 'used for the first time',
  setChanged: 'transfer set changed',
  removed: 'removed',
};
