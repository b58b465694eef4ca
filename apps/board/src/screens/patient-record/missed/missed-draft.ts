import type { Appearance } from '@slackwater/domain';
import { type ComfortDraft, NO_COMFORT } from '../../bedside/model/comfort-draft.ts';
import { EMPTY_INSTANT } from '../../bedside/shared/typed-instant.ts';

/** Of what there was to look at: as it was seen, or that nobody watched it. null: not said yet, and never taken for either. */
export type Watched<Seen extends string = 'seen'> = Seen | 'notWatched' | null;

export type DrainDraft = {
  start: typeof EMPTY_INSTANT;
  end: typeof EMPTY_INSTANT;
  drained: string;
  notKnown: boolean;
  method: 'jug' | 'bagMarks' | null;
  appearance: readonly Appearance[];
  appearanceNotWatched: boolean;
  flow: Watched<'stopped' | 'notStopped'>;
  discarded: boolean;
};

export type FillDraft = {
  start: typeof EMPTY_INSTANT;
  end: typeof EMPTY_INSTANT;
  itemId: string | null;
  /** null: as the item says. */
  solutionId: string | null;
  reason: string;
  physician: string;
  lot: string;
  secondPerson: string;
  /** In date, no leak, clear, warmed, seal whole, chambers mixed. */
  bag: Watched;
  /** Outlet seal broken, no leak. */
  seal: Watched;
  flush: string;
  flushNotKnown: boolean;
  filled: string;
  notKnown: boolean;
};

/** A missed exchange as it stands in the form. */
export type MissedDraft = {
  kind: 'both' | 'drain' | 'fill';
  /** Name and birth date against the wristband. */
  patient: Watched;
  comfort: Watched<'comfortable' | 'felt'>;
  felt: ComfortDraft;
  drain: DrainDraft;
  fill: FillDraft;
};

/** Nothing is stated for anybody. */
export const NOTHING_MISSED: MissedDraft = {
  kind: 'both',
  patient: null,
  comfort: null,
  felt: NO_COMFORT,
  drain: {
    start: EMPTY_INSTANT,
    end: EMPTY_INSTANT,
    drained: '',
    notKnown: false,
    method: null,
    appearance: [],
    appearanceNotWatched: false,
    flow: null,
    discarded: false,
  },
  fill: {
    start: EMPTY_INSTANT,
    end: EMPTY_INSTANT,
    itemId: null,
    solutionId: null,
    reason: '',
    physician: '',
    lot: '',
    secondPerson: '',
    bag: null,
    seal: null,
    flush: '',
    flushNotKnown: false,
    filled: '',
    notKnown: false,
  },
};
