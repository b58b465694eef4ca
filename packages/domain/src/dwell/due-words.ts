import type { Due } from '../bedside/state.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { formatMinutes } from '../words/numbers.ts';

/** Which rule gave a due time, in one sentence; where the tool is not sure it ends in a question to the nurse. */
export function dueWords({ what, rule, ask }: Pick<Due, 'what' | 'rule' | 'ask'>, { settings }: WardPolicy): string {
  if (rule === 'clockFar') {
    const far = formatMinutes(settings.clockFarHours * 60);
    return `The clock time lies more than ${far} beyond the planned dwell, so the planned dwell counts: right?`;
  }
  if (ask) return 'Nobody prescribed how long this fluid dwells, so the shortest prescribed dwell counts: right?';
  switch (rule) {
    case 'length':
      return 'By the prescribed length.';
    case 'clock':
      return 'At the prescribed clock time.';
    case 'clockMinimum':
      return `The fill was late: at least ${formatMinutes(settings.clockMinimumMinutes)} after it, or the planned dwell.`;
    case 'cycle':
      return 'By the prescribed cycle.';
    case 'order':
      return 'By order.';
    case 'orderUntil':
      return 'Empty until then by order.';
    case 'nextItem':
      return 'When the next exchange of the day begins.';
    case 'afterDrain': {
      const after = `${formatMinutes(settings.fillAfterDrainMinutes)} after the drain`;
      return what === 'drain' ? `The drain did not empty the cavity: again ${after}.` : `${after}.`;
    }
    case 'holdReview':
      return 'The hold is to be reviewed.';
  }
}
