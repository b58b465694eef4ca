import type { AlertKind, AlertRank } from '../alert/alert.ts';
import type { Mark } from '../ward/mark.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { Finding } from './finding.ts';
import { RESPONSE_PARTS, type ResponsePart } from './response-texts.ts';

/** What a finding asks for. */
export type Response = {
  title: string;
  /** What to do now, one act a line. */
  doNow: string;
  /** Whom to tell. Empty: nobody in particular. */
  tell: string;
  /** What to send to the laboratory. Empty: nothing. */
  send: string;
  /** The alert that it raises, and the gravest rank of that; null = none. */
  alert: { kind: AlertKind; rank: AlertRank } | null;
  source: string;
  mark: Mark;
};

const KEEP = 'Keep the bag, labelled: it cannot be closed as discarded';
const SAMPLE =
  'Cell count with differential, Gram stain, culture: blood-culture bottles, 5–10 mL each, before any antibiotic; ' +
  'to the laboratory within 6 h, at 37 °C and not in the cold';
const OFTEN_CLEARS = 'The first exchanges after insertion, menstruation or strain often clear.';
const PHYSICIAN = 'The physician';
const AT_ONCE = 'The physician, at once';
const TABLE_7 = 'Int J Nephrol 2011:739794, Table 7';
const SUDDEN: Pick<Response, 'tell' | 'send' | 'alert' | 'source' | 'mark'> = {
  tell: AT_ONCE,
  send: 'A sample of it, for glucose: dialysis fluid holds far more than urine or stool',
  alert: { kind: 'suddenOutflow', rank: 'high' },
  source: 'A catheter put in days ago may have gone through bladder or bowel. Common practice.',
  mark: 'T',
};

/** The response to every finding, as a ward starts with it. A finding without its line does not compile. */
export const RESPONSES: Readonly<Record<Finding, Response>> = {
  cloudy: {
    title: 'Cloudy: peritonitis until excluded',
    doNow: KEEP,
    tell: PHYSICIAN,
    send: SAMPLE,
    alert: { kind: 'effluentCloudy', rank: 'high' },
    source: 'ISPD 2022 (Perit Dial Int 2022;42:110–153), overview; RCP review, Box 2.',
    mark: 'P',
  },
  milky: {
    title: 'Milky: chyle, or peritonitis',
    doNow: KEEP,
    tell: PHYSICIAN,
    send: `${SAMPLE}; triglyceride`,
    alert: { kind: 'effluentCloudy', rank: 'high' },
    source: 'J Jpn Soc Dial Ther 1994;28:1179.',
    mark: 'P',
  },
  brown: {
    title: 'Brown or faecal: bowel, an emergency',
    doNow: `Do not fill\n${KEEP}`,
    tell: AT_ONCE,
    send: SAMPLE,
    alert: { kind: 'effluentBowelOrBile', rank: 'high' },
    source: 'Brown or faecal is bowel: teaching text.',
    mark: 'P',
  },
  green: {
    title: 'Green: bile, an emergency',
    doNow: `Do not fill\n${KEEP}`,
    tell: AT_ONCE,
    send: SAMPLE,
    alert: { kind: 'effluentBowelOrBile', rank: 'high' },
    source: 'Green is bile: from memory.',
    mark: 'M',
  },
  bloody: {
    title: 'Bloody: heavy, not clearing or unwell, call',
    doNow: 'Blood pressure and pulse; look at the patient\nLook again at the next drain',
    tell: 'The physician, if it is heavy, does not clear, or the patient is unwell',
    send: '',
    alert: { kind: 'effluentBloody', rank: 'high' },
    source: `${TABLE_7}; teaching texts. ${OFTEN_CLEARS}`,
    mark: 'P',
  },
  pink: {
    title: 'Pink: look again at the next drain',
    doNow: 'Look again at the next drain',
    tell: '',
    send: '',
    alert: null,
    source: `Teaching texts. ${OFTEN_CLEARS}`,
    mark: 'P',
  },
  fibrin: {
    title: 'Fibrin: a little is accepted',
    doNow: 'More than a little: heparin as ordered; look whether the flow is slower',
    tell: '',
    send: '',
    alert: null,
    source: 'Teaching texts.',
    mark: 'P',
  },
  breathless: {
    title: 'Breathless: sit up, call',
    doNow: 'Sit the patient up\nDo not fill: with a short drain it is a leak into the chest until excluded',
    tell: AT_ONCE,
    send: '',
    alert: { kind: 'breathless', rank: 'high' },
    source: 'A short drain with breathlessness is a pleural leak until excluded. Common practice.',
    mark: 'T',
  },
  leakAtExit: {
    title: 'Leak at the exit',
    doNow: 'Stop a fill that runs\nDry dressing; look whether what leaks is dialysis fluid (glucose strip)',
    tell: PHYSICIAN,
    send: '',
    alert: { kind: 'leakOrSwelling', rank: 'medium' },
    source: `${TABLE_7}. Common practice.`,
    mark: 'P',
  },
  swelling: {
    title: 'Swelling of flank, genitals or a hernia: a leak',
    doNow: 'Stop a fill that runs\nLook where it swells, and whether the drain was short',
    tell: PHYSICIAN,
    send: '',
    alert: { kind: 'leakOrSwelling', rank: 'medium' },
    source: 'Swelling of flank, genitals or a hernia is a leak. Common practice.',
    mark: 'T',
  },
  severePain: {
    title: 'Severe pain: call',
    doNow: 'Stop a fill that runs\nLook at the effluent: clear or cloudy?',
    tell: AT_ONCE,
    send: '',
    alert: { kind: 'painToCall', rank: 'high' },
    source: `${TABLE_7}.`,
    mark: 'P',
  },
  newOrConstantPain: {
    title: 'New or constant pain: peritonitis may begin so',
    doNow: 'Look at the effluent: clear or cloudy?\nTemperature',
    tell: PHYSICIAN,
    send: '',
    alert: { kind: 'painToCall', rank: 'medium' },
    source: 'Pain is one of the criteria: ISPD 2022 (Perit Dial Int 2022;42:110–153), overview.',
    mark: 'P',
  },
  painAtFill: {
    title: 'Pain as the fill starts',
    doNow: 'Slower: lower the bag, close the clamp a little\nIs the bag warm?',
    tell: '',
    send: '',
    alert: null,
    source: 'Common practice.',
    mark: 'T',
  },
  painAtDrainEnd: {
    title: 'Pain as the drain ends',
    doNow: 'Turn, sit up; end the drain before it pulls',
    tell: '',
    send: '',
    alert: null,
    source: 'Common practice.',
    mark: 'T',
  },
  shoulderPain: {
    title: 'Pain in the shoulder: air',
    doNow: 'Drain with the patient flat or the hips raised; prime the line before the next fill',
    tell: '',
    send: '',
    alert: null,
    source: 'Common practice.',
    mark: 'T',
  },
  cramp: {
    title: 'Cramp',
    doNow: 'Blood pressure; has too much come off?\nIs the bag warm, does it run too fast?',
    tell: '',
    send: '',
    alert: null,
    source: 'Common practice.',
    mark: 'T',
  },
  suddenUrine: {
    ...SUDDEN,
    title: 'Sudden “urine” as fluid runs in: the bladder?',
    doNow: 'Stop: no fill\nKeep what was passed',
  },
  wateryStool: {
    ...SUDDEN,
    title: 'Watery stool as fluid runs in: the bowel?',
    doNow: 'Stop: no fill\nKeep what was passed, and the bag',
  },
  exitSiteInfection: {
    title: 'Exit site: taken for an infection',
    doNow: 'Swab before any antibiotic; press along the tunnel: pain, pus?\nLook at the effluent: clear or cloudy?',
    tell: PHYSICIAN,
    send: 'Swab for Gram stain and culture',
    alert: { kind: 'exitSiteInfection', rank: 'medium' },
    source: 'Pus is infection: ISPD 2023 as summarised. A score of 4 and more: from memory.',
    mark: 'M',
  },
  exitSiteSigns: {
    title: 'Exit site: infection is not excluded',
    doNow: 'Look again at the next dressing; ask a second person',
    tell: '',
    send: '',
    alert: null,
    source: 'A score under 4 misses 36 of 100 infections: sensitivity 64 % (Clin Nephrol 2014;81:100).',
    mark: 'P',
  },
};

/** The response as this ward words it; which parts are the ward's own. */
export function responseTo(
  finding: Finding,
  { responses }: Pick<WardPolicy, 'responses'>,
): Response & { wardsOwn: readonly ResponsePart[] } {
  const wardsOwn = RESPONSE_PARTS.filter((part) => responses[`${finding}.${part}`] !== undefined);
  const texts = Object.fromEntries(wardsOwn.map((part) => [part, responses[`${finding}.${part}`]]));
  return { ...RESPONSES[finding], ...texts, wardsOwn };
}

/** What to do next in one sentence or two, for an alert. */
export function nextWords(finding: Finding, policy: Pick<WardPolicy, 'responses'>): string {
  const { doNow, send, tell } = responseTo(finding, policy);
  const acts = doNow.split('\n').filter((line) => line.trim() !== '');
  return [...acts, send && `Send: ${send}`, tell && `Tell: ${tell[0]?.toLowerCase()}${tell.slice(1)}`]
    .filter((part) => part !== '')
    .map((part) => (/[.?!]$/.test(part) ? part : `${part}.`))
    .join(' ');
}
