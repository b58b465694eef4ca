import { ALERT_TITLES, type AlertKind } from '@slackwater/domain/alert/alert';

/**
 * A row and the wall have one line for the title, and a title that is cut is a hazard: these have a shorter one there. The
 * alert centre, a page and a notice say the whole.
 */
const SHORTER: Partial<Record<AlertKind, string>> = {
  holdReviewDue: 'Hold: review due',
  drainVerySlow: 'Drain not ending',
  effluentBowelOrBile: 'Bowel or bile?',
  suddenOutflow: 'Perforation?',
  exitSiteInfection: 'Exit site infected?',
  drainShortOften: 'Short drains',
  dwellRetained: 'Much retained',
  retainedTwice: 'Retained twice',
  pressureOutside: 'Blood pressure',
  temperatureOutside: 'Temperature',
  prescriptionReviewDue: 'Review due',
  countersignDue: 'Countersign',
};

/** What an alert is called where there is one line for it: `ALERT_TITLES`, or less where that has no room. */
export const rowTitle = (kind: AlertKind): string => SHORTER[kind] ?? ALERT_TITLES[kind];
