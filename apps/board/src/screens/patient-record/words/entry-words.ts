import type { EntryKind, Infused, Measure, OrderContent, Override, Payloads } from '@slackwater/domain';
import { CAUTION_WORDS } from '@slackwater/domain/caution/words';
import { infusedMl, measuredMl } from '@slackwater/domain/cavity/measured';
import { exitSiteFinding } from '@slackwater/domain/peritonitis/exit-site';
import { additivesWords, orderedAdditivesWords } from '@slackwater/domain/prescription/additive-words';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatIsoDate, formatMinutes, formatMl } from '@slackwater/domain/words/numbers';
import { CATHETER_WORDS } from '../../../components/catheter-words.ts';
import { EFFECT_WORDS, MOVE_WORDS } from '../../bedside/model/move-words.ts';
import { KIND_WORDS } from '../../bedside/model/step-words.ts';
import { appearanceWords, comfortWords } from '../../bedside/model/words.ts';
import { handoverWords } from './fluid-words.ts';
import { type Said, said, type Words } from './said.ts';
import { WORK_UP_TELLING } from './work-up-words.ts';

type Telling = { [K in EntryKind]: (payload: Payloads[K], words: Words) => Said };

const plain = (kind: EntryKind) => () => said(KIND_WORDS[kind]);
const strength = (id: string | null, { formulary }: Words) =>
  solutionOf(formulary, id)?.strength ?? id ?? 'strength not known';
const volume = (ml: number | null) => (ml === null ? 'volume not known' : formatMl(ml));

const overrideWords = ({ reason, physician }: Override): string =>
  physician === null ? reason : `${reason}, by word of ${physician}`;

/** Of what was entered afterwards: which of it nobody watched. */
const notWatched = (looked: Readonly<Record<string, unknown>>): string | null => {
  const unseen = Object.keys(looked).filter((what) => looked[what] === null);
  return unseen.length === 0 ? null : `nobody watched: ${unseen.join(', ')}`;
};

const METHOD: Record<Measure['method'], string> = {
  scale: 'by scale',
  bagMarks: 'by bag marks',
  jug: 'by measuring jug',
};

const measureDetail = (measure: Measure) => [
  measure.method === 'scale' && `full ${measure.grossG} g, empty ${measure.tareG} g`,
  measure.flushIncluded ? `flush ${formatMl(measure.flushMl)} taken off` : 'no flush in it',
];

const infusedDetail = (infused: Infused) =>
  infused.basis === 'computed'
    ? `label ${formatMl(infused.labelledMl)} + bag excess ${formatMl(infused.bagExcessMl)} − flush ${formatMl(infused.flushMl)} − left ${formatMl(infused.leftInBagMl)}`
    : infused.basis === 'wholeBag'
      ? 'the whole bag'
      : null;

/** A one-off order in words. */
export const orderWords = (content: OrderContent, words: Words): string => {
  switch (content.what) {
    case 'drainAndStayEmpty':
      return `Drain by ${words.clock(content.drainBy)} and stay empty until ${words.clock(content.emptyUntil)}${
        content.away
          ? `: ${content.away.where} at ${words.clock(content.away.leavesAt)}, back about ${words.clock(content.away.backAt)} (${content.away.why})`
          : ''
      }`;
    case 'rinse':
      return `Rinse ${content.rinses} × ${formatMl(content.volumeMl)} of ${strength(content.solutionId, words)}, no dwell`;
    case 'sample':
      return `Sample after ${formatMinutes(content.dwellMinutes)}: ${content.sample}`;
    case 'partialDrain':
      return `Drain ${formatMl(content.volumeMl)} only`;
    case 'oneExchange':
      return `One exchange of ${formatMl(content.fillMl)}, ${strength(content.solutionId, words)}${content.dwellMinutes === null ? '' : `, dwell ${formatMinutes(content.dwellMinutes)}`}${content.additives.length === 0 ? '' : `, with ${orderedAdditivesWords(content.additives)}`}`;
    case 'drainNow':
      return 'Drain now';
    case 'dueAt':
      return `Drain at ${words.clock(content.dueAt)}`;
  }
};

const STOP: Record<Payloads['stop']['reason'], string> = {
  pain: 'pain',
  breathless: 'breathless',
  noFlow: 'no flow',
  leak: 'leak',
  sterilityBroken: 'sterility broken',
  patientAsked: 'the patient asked',
  calledAway: 'called away',
  other: 'other reason',
};

const ROUTE: Record<Payloads['otherFluid']['route'], string> = {
  oral: 'oral',
  intravenous: 'intravenous',
  urine: 'urine',
  otherDialysis: 'other dialysis',
  other: 'other',
};

/** The words of every kind; a kind without its line does not compile. */
const TELLING: Telling = {
  prepare: (payload, words) =>
    said('Prepared', [
      payload.bag && `${formatMl(payload.bag.labelledMl)} of ${strength(payload.bag.solutionId, words)}`,
      payload.purpose === 'drainOnly' && 'drain only',
      payload.purpose === 'fillOnly' && 'fill only',
      payload.bag?.expiresOn && `expires ${formatIsoDate(payload.bag.expiresOn)}`,
      payload.bag?.lot && `lot ${payload.bag.lot}`,
      payload.override && `against the bag check: ${overrideWords(payload.override)}`,
      payload.despiteOrder && `although ordered to stay empty: ${overrideWords(payload.despiteOrder)}`,
      payload.afterwards && 'entered afterwards',
      notWatched({ patient: payload.identifiers, bag: payload.bagChecks?.noLeak }),
    ]),
  connect: plain('connect'),
  startDrain: ({ early }) =>
    said('Drain started', [
      early && `before an additive had dwelt its time: ${early.reason}`,
      early?.physician && `told ${early.physician}`,
    ]),
  endDrain: ({ flow }) =>
    said('Drain finished', [
      flow === 'notStopped' && 'it still ran',
      flow === null && 'nobody watched whether it stopped',
    ]),
  startFill: (payload, words) =>
    said('Fill started', [
      `${formatMl(payload.prescribedMl)} of ${strength(payload.bag.solutionId, words)}`,
      payload.flushMl !== null && `flush ${formatMl(payload.flushMl)}`,
      payload.additives.length > 0 && `with ${additivesWords(payload.additives)}`,
      payload.guardOverride && `all the same: ${overrideWords(payload.guardOverride)}`,
      payload.bagOverride && `against the bag check: ${overrideWords(payload.bagOverride)}`,
      payload.despiteOrder && `although ordered to stay empty: ${overrideWords(payload.despiteOrder)}`,
      payload.afterwards && 'entered afterwards',
      payload.afterwards?.secondPerson && `second person, by name and not signed: ${payload.afterwards.secondPerson}`,
      notWatched({ 'outlet seal': payload.sealBroken, leak: payload.noLeak, flush: payload.flushMl }),
    ]),
  endFill: ({ infused }) => said(`Fill finished, ${volume(infusedMl(infused))}`, [infusedDetail(infused)]),
  close: ({ leftEmpty }) => said('Closed', [leftEmpty && 'without a fill']),
  stop: ({ reason, note, contamination }) =>
    said(`Exchange stopped: ${STOP[reason]}`, [
      contamination &&
        `${contamination.kind} breach${contamination.setChanged ? ', set changed' : ''}${contamination.physicianTold ? ', physician told' : ''}`,
      note,
    ]),
  resume: plain('resume'),
  additiveCheckAsked: (payload, words) =>
    said('Second person asked', [
      orderedAdditivesWords(payload.additives),
      `${formatMl(payload.prescribedMl)} of ${strength(payload.bag.solutionId, words)}`,
    ]),
  additiveChecked: ({ agrees, note }) =>
    said(agrees ? 'Second person agrees' : 'Second person found a difference', [
      agrees && 'patient, bag, additive and amount looked at',
      note,
    ]),
  appearance: ({ appearance, note }) =>
    said(appearance === null ? 'Nobody watched the effluent' : `Effluent ${appearanceWords(appearance)}`, [note]),
  comfort: ({ comfort }) =>
    said(comfort === null ? 'Nobody watched how the patient felt' : `Patient ${comfortWords(comfort)}`),
  measure: (measure) =>
    said(`Drained ${formatMl(measuredMl(measure))}, ${METHOD[measure.method]}`, [
      measure.role === 'exact' ? 'exact measure' : 'reading',
      ...measureDetail(measure),
    ]),
  flowMoves: ({ tried }) => said('First moves tried', [`${tried.length} of 6`]),
  flowEffect: ({ move, effect }) => said(`${MOVE_WORDS[move]}: ${EFFECT_WORDS[effect]}`),
  bagFate: (payload) =>
    payload.fate === 'discarded'
      ? said('Drain bag discarded')
      : said('Drain bag kept', [payload.keptWhere, payload.sampleSent ? 'sample sent' : 'sample not sent']),
  told: ({ whom, toldAt, outcome, about, notReached }, { clock }) =>
    said(`${whom} ${notReached ? 'not reached' : 'told'} ${clock(toldAt)}`, [about, outcome]),
  symptoms: ({ comfort, note }) => said(`Between exchanges: ${comfortWords(comfort)}`, [note]),
  ...WORK_UP_TELLING,
  cavityConfirmedEmpty: ({ note }) => said('Cavity confirmed empty', [note]),
  calledFirst: ({ about, by, whom, words }) =>
    said(by === 'told' ? `${whom} called before a strong bag` : 'Strong bag all the same', [
      about === 'pressureTooLow' ? 'blood pressure below the limit' : 'no blood pressure of late',
      words,
    ]),
  caution: ({ about, present, note }) => said(`${CAUTION_WORDS[about]}: ${present ? 'yes' : 'no'}`, [note]),
  weight: ({ weightKg, cavity }) => said(`Weight ${weightKg} kg, ${cavity}`),
  bloodPressure: ({ systolicMmHg, diastolicMmHg, position }) =>
    said(`Blood pressure ${systolicMmHg}/${diastolicMmHg} mmHg`, [position]),
  temperature: ({ celsius }) => said(`Temperature ${celsius} °C`),
  glucose: ({ glucoseMmolPerL, meter }) =>
    said(`Blood glucose ${glucoseMmolPerL} mmol/L`, [
      meter === 'glucoseSpecific' ? 'glucose-specific meter' : 'other meter',
    ]),
  bowels: ({ opened, note }) => said(opened ? 'Bowels opened' : 'Bowels not opened', [note]),
  otherFluid: ({ direction, route, volumeMl, note }) =>
    said(`${formatMl(volumeMl)} ${direction === 'in' ? 'in' : 'out'}, ${ROUTE[route]}`, [note]),
  exitSite: (payload) =>
    said(payload.pus ? 'Exit site: pus' : 'Exit site', [
      `score ${exitSiteFinding(payload).value?.score ?? 'not known'} of 10`,
      payload.note,
    ]),
  admitted: ({ bed, inside, dialysis }, words) =>
    said(`Admitted to bed ${bed}`, [
      dialysis === 'acute' && 'acute',
      inside.cavity === 'empty'
        ? 'cavity empty'
        : inside.cavity === 'notKnown'
          ? 'not known what is inside'
          : `inside ${volume(inside.filledMl)} of ${strength(inside.solutionId, words)}`,
    ]),
  transferredOut: ({ toWardId, fluid }, words) =>
    said('Transferred to another ward', [toWardId, fluid && handoverWords(fluid, words)]),
  transferredIn: ({ fromWardId, bed }) => said(`Came from another ward to bed ${bed}`, [fromWardId]),
  movedBed: ({ bed }) => said(`Moved to bed ${bed}`),
  leftWard: ({ where, backAbout, undrained }, { clock }) =>
    said(`Off the ward: ${where}`, [
      backAbout !== null && `back about ${clock(backAbout)}`,
      undrained && `with fluid inside, although ordered drained before: ${overrideWords(undrained)}`,
    ]),
  returned: plain('returned'),
  discharged: ({ to, handover, fluid }, words) =>
    said(`Discharged to ${to}`, [handover, fluid && handoverWords(fluid, words)]),
  assigned: ({ name }) => said(name === null ? 'No nurse assigned' : `${name} assigned`),
  catheter: ({ event, note }) => said(`Catheter: ${CATHETER_WORDS[event]}`, [note]),
  dialysisPeriod: ({ event, modality }) => said(`Dialysis ${event}, ${modality}`),
  prescribed: ({ items, note }) => said('Prescribed', [`${items.length} exchanges a day`, note]),
  held: ({ reason, reviewBy }, { clock }) => said('On hold', [reason, `review by ${clock(reviewBy)}`]),
  holdLifted: plain('holdLifted'),
  discontinued: ({ reason }) => said('Prescription discontinued', [reason]),
  ordered: ({ content, telephone, note }, words) =>
    said(`Order: ${orderWords(content, words)}`, [
      telephone && `by telephone, ${telephone.physician}, read back`,
      note,
    ]),
  countersigned: plain('countersigned'),
  orderEnded: ({ why, reason }) => said(why === 'done' ? 'Order carried out' : 'Order withdrawn', [reason]),
  alertRaised: ({ condition }) => said('Alert raised', [condition.kind]),
  alertAcknowledged: ({ until }, { clock }) => said('Alert taken', [`until ${clock(until)}`]),
  alertHandedOn: ({ until }, { clock }) => said('Alert handed on', [`until ${clock(until)}`]),
  alertSnoozed: ({ until }, { clock }) => said('Alert snoozed', [`until ${clock(until)}`]),
  alertEscalated: ({ to }) =>
    said('Alert went up a step', [to === 'physician' ? 'to the physician' : 'to the charge nurse']),
  alertCleared: ({ by, reason }) => said('Alert cleared', [by === 'condition' && 'the condition passed', reason]),
  corrected: ({ reason }) => said('Correction', [reason]),
  retracted: ({ reason }) => said('Retracted', [reason]),
  identityChanged: ({ fields }) => said('Identity put right', [fields.join(', ')]),
  erased: ({ reason }) => said('Erased by law', [reason]),
  suppliesChanged: plain('suppliesChanged'),
  settingsChanged: plain('settingsChanged'),
  imported: (payload, words) =>
    said(`Imported: drained ${volume(payload.drainedMl)}, filled ${volume(payload.filledMl)}`, [
      strength(payload.solutionId, words),
      payload.note,
    ]),
};

/** An entry in words. @param payload as it stands after corrections */
export const entryWords = (kind: EntryKind, payload: unknown, words: Words): Said =>
  (TELLING[kind] as (payload: unknown, words: Words) => Said)(payload, words);
