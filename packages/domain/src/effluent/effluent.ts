/** How the effluent looks; several may hold at once (pink with fibrin). */
export type Appearance = 'clear' | 'cloudy' | 'fibrin' | 'pink' | 'bloody' | 'milky' | 'brown' | 'green';

export const APPEARANCES: readonly Appearance[] = [
  'clear',
  'cloudy',
  'fibrin',
  'pink',
  'bloody',
  'milky',
  'brown',
  'green',
];

/**
 * Appearances whose bag is kept until its sample went: cloudy and milky are peritonitis until excluded (home-dialysis
 * education text; J Jpn Soc Dial Ther 1994;28:1179), brown is bowel (teaching text), green bile (from memory).
 */
export const KEEP_THE_BAG: readonly Appearance[] = ['cloudy', 'milky', 'brown', 'green'];

export type Comfort = {
  /** 0 (none) to 10; null = not asked. */
  pain: number | null;
  phase: 'startOfFill' | 'endOfDrain' | 'shoulder' | 'newOrConstant' | null;
  cramp: boolean;
  breathless: boolean;
  leakAtExit: boolean;
  swelling: boolean;
  /** Where it swells; left out where nobody said. */
  swellingAt?: readonly SwellingPlace[];
  /** What came suddenly as fluid ran in, another way than it should. */
  sudden?: readonly SuddenOutflow[];
};

export const SWELLING_PLACES = ['flank', 'genitals', 'hernia'] as const;
export type SwellingPlace = (typeof SWELLING_PLACES)[number];

export const SUDDEN_OUTFLOWS = ['urine', 'wateryStool'] as const;
export type SuddenOutflow = (typeof SUDDEN_OUTFLOWS)[number];

/** First moves at a drain that runs slowly or short. */
export type FlowMove = 'kinksAndClamps' | 'bagBelowAbdomen' | 'turnedOnSide' | 'satUp' | 'fibrinInLine' | 'bowels';

/** What a first move did to the flow. */
export type FlowEffect = 'runsAgain' | 'better' | 'same';

export const FLOW_MOVES: readonly FlowMove[] = [
  'kinksAndClamps',
  'bagBelowAbdomen',
  'turnedOnSide',
  'satUp',
  'fibrinInLine',
  'bowels',
];
