import type { BedsideState, EpochMs, Visit, WardPolicy } from '@slackwater/domain';
import { bagFor } from '@slackwater/domain/prescription/bag-for';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { BLOCK_OF, type Block, type Place } from '../model/place.ts';
import { appearanceWords, comfortWords } from '../model/words.ts';

/** One graduation of the staff. */
export type StaffRow = {
  block: Block;
  name: string;
  status: 'done' | 'here' | 'next';
  /** What the record says of a block that is done, or what is to come. */
  said: string;
  noTouch: boolean;
};

const ORDER: readonly Block[] = ['prepare', 'connect', 'drain', 'reading', 'fill', 'close', 'finish'];

const NAMES: Record<Block, string> = {
  prepare: '1 Prepare',
  connect: '2 Connect',
  drain: '3 Drain',
  reading: 'Reading',
  fill: '4 Fill',
  close: '5 Close',
  finish: '6 Finish',
};

type Words = { clock: (at: EpochMs) => string; policy: WardPolicy };

const drainSaid = (visit: Visit, { clock }: Words): string => {
  const last = visit.drains.at(-1);
  if (!last) return '';
  if (last.endedAt === null) return `since ${clock(last.startedAt)}`;
  const looks = [appearanceWords(last.appearance), visit.comfort ? comfortWords(visit.comfort) : '']
    .filter(Boolean)
    .join(', ');
  return `${clock(last.startedAt)} to ${clock(last.endedAt)}${looks ? `; ${looks}` : ''}`;
};

const fillSaid = (state: BedsideState, visit: Visit, { clock }: Words): string => {
  if (visit.fill) return `since ${clock(visit.fill.startedAt)}`;
  const fills = state.cavity.state === 'holding' ? state.cavity.fills.filter((fill) => fill.visitId === visit.id) : [];
  const last = fills.at(-1);
  if (!last) return 'none given';
  const volume = fills.reduce<number | null>(
    (sum, fill) => (sum === null || fill.filledMl === null ? null : sum + fill.filledMl),
    0,
  );
  const when =
    last.startedAt !== null && last.endedAt !== null ? `${clock(last.startedAt)} to ${clock(last.endedAt)}, ` : '';
  return `${when}${volume === null ? 'volume not known' : formatMl(volume)}`;
};

const readingSaid = (visit: Visit): string => {
  const volume = visit.drains.at(-1)?.drainedMl ?? null;
  return volume === null ? 'no volume' : formatMl(volume);
};

const doneSaid = (block: Block, state: BedsideState, visit: Visit, words: Words): string => {
  switch (block) {
    case 'prepare': {
      const strength = solutionOf(words.policy.formulary, visit.bag?.solutionId ?? null)?.strength;
      return `${words.clock(visit.startedAt)} ${strength ? `${strength}, six checks` : 'patient checked'}`;
    }
    case 'connect':
      return visit.drains[0] ? words.clock(visit.drains[0].startedAt) : '';
    case 'drain':
      return drainSaid(visit, words);
    case 'reading':
      return readingSaid(visit);
    case 'fill':
      return fillSaid(state, visit, words);
    case 'close':
      return visit.closedAt === null ? '' : words.clock(visit.closedAt);
    case 'finish':
      return '';
  }
};

const nextSaid = (block: Block, state: BedsideState, { policy }: Words): string => {
  switch (block) {
    case 'prepare':
      return 'patient and bag';
    case 'connect':
    case 'close':
      return 'no touch';
    case 'fill': {
      const bag = bagFor(state, policy);
      const strength = solutionOf(policy.formulary, bag?.solutionId ?? null)?.strength;
      return bag && strength ? `${formatMl(bag.fillMl)} of ${strength}` : 'none prescribed';
    }
    case 'finish':
      return 'measure, bag, sign';
    default:
      return '';
  }
};

const hereSaid = (block: Block, state: BedsideState, visit: Visit | null, words: Words): string => {
  if (visit && (block === 'drain' || (block === 'fill' && visit.fill))) return doneSaid(block, state, visit, words);
  return nextSaid(block, state, words);
};

/** The staff: what each block's record says, which is under way, what is to come. */
export const staffRows = (state: BedsideState, place: Place, words: Words): readonly StaffRow[] => {
  const visit = state.visit ?? (place === 'finish' ? state.lastVisit : null);
  const here = ORDER.indexOf(BLOCK_OF[place]);
  const skipped = (block: Block) =>
    (visit?.purpose === 'drainOnly' && block === 'fill') ||
    (visit?.purpose === 'fillOnly' && (block === 'drain' || block === 'reading'));
  return ORDER.map((block, index) => {
    const status = index < here ? 'done' : index === here ? 'here' : 'next';
    const said = skipped(block)
      ? 'not in this visit'
      : status === 'done' && visit
        ? doneSaid(block, state, visit, words)
        : status === 'here'
          ? hereSaid(block, state, visit, words)
          : nextSaid(block, state, words);
    return { block, name: NAMES[block], status, said, noTouch: block === 'connect' || block === 'close' };
  });
};
