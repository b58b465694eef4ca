import { COMMON, setting } from './setting.ts';

const CHILDREN = 'Measured in 25 children: 79 ± 25 mL/m² (Adv Perit Dial 1999); the adult value is from memory';

/** How a drain and a fill should run: what is measured, when a flow is short or slow, what is tried first, what stops a fill. */
export const DRAIN_AND_FILL = {
  residualMl: setting([200, 0, 1000], 'mL', 'M', CHILDREN, 'What an ordinary complete drain leaves behind'),
  flushMl: setting(
    [100, 0, 500],
    'mL',
    'P',
    'Maharjan & Davenport, J Nephrol 2019 (doi 10.1007/s40620-019-00646-7)',
    'Run through the line into the drain bag before a fill',
  ),
  densityGPerMl: setting(
    [1, 0.95, 1.1],
    'g/mL',
    'T',
    'Common practice; fluid is about 1.00 to 1.02 g/mL (from memory)',
    'Turns the weight of a drain into its volume',
  ),
  measuresApartMl: setting(
    [150, 50, 500],
    'mL',
    'C',
    'Computed: measuring jugs and bag marks read to ± 50 mL',
    'Reading and exact measure further apart than this ask to look again',
  ),
  shortDrainBelowExpectedMl: setting(
    [400, 100, 1500],
    'mL',
    'C',
    'Computed from the published spread of ultrafiltration, 175 to 295 mL',
    'A drain further below the expected one is short (for a 2,000 mL fill; scales with the fill)',
  ),
  shortDrainBelowFillPercent: setting(
    [80, 50, 100],
    '%',
    'C',
    'Computed from the published spread of ultrafiltration, 175 to 295 mL',
    'A drain below this share of the fill is short',
  ),
  shortOftenOfFive: setting([3, 2, 5], 'of 5', 'T', COMMON, 'So many short drains among the last five are said once'),
  retainedCallMl: setting(
    [1000, 300, 2000],
    'mL',
    'P',
    'Int J Nephrol 2011:739794, Table 7',
    'One dwell that retains more than this: the physician is called (for a 2,000 mL fill; scales with the fill)',
  ),
  slowDrainMinutes: setting([30, 10, 120], 'min', 'W', 'Teaching texts', 'A drain longer than this is noted'),
  verySlowDrainMinutes: setting(
    [45, 15, 180],
    'min',
    'W',
    'American Journal of Kidney Diseases core curriculum, as summarised',
    'A drain longer than this is an alert of high rank',
  ),
  slowFillMinutes: setting([20, 5, 60], 'min', 'T', 'Common practice', 'A fill of 2,000 mL longer than this is slow'),
  turnedOnSidePlace: setting([1, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "turn on the side"'),
  satUpPlace: setting([2, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "sit up"'),
  kinksAndClampsPlace: setting([3, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "kinks, closed clamps"'),
  bagBelowAbdomenPlace: setting([4, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "bag below the abdomen"'),
  bowelsPlace: setting([5, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "bowels"'),
  fibrinInLinePlace: setting([6, 1, 6], 'place', 'T', COMMON, 'At a slow drain: place of "fibrin in the line"'),
  guardAskPercent: setting(
    [25, 10, 100],
    '%',
    'M',
    'From memory, low confidence: the ward must set it',
    'More than this share of the fill above the residual asks before a fill',
  ),
  guardStopPercent: setting(
    [50, 20, 150],
    '%',
    'M',
    'From memory, low confidence: the ward must set it',
    'More than this share of the fill above the residual: no fill is offered',
  ),
};
