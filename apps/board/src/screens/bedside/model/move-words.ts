import type { FlowEffect, FlowMove, WardSettings } from '@slackwater/domain';
import { FLOW_MOVES } from '@slackwater/domain/effluent/effluent';

export const MOVE_WORDS: Record<FlowMove, string> = {
  turnedOnSide: 'Turned on the side',
  satUp: 'Sat up',
  kinksAndClamps: 'Kinks, closed clamps',
  bagBelowAbdomen: 'Bag below the abdomen',
  bowels: 'Bowels',
  fibrinInLine: 'Fibrin in the line',
};

export const EFFECT_WORDS: Record<FlowEffect, string> = {
  runsAgain: 'it runs again',
  better: 'a little better',
  same: 'no change',
};

/** The first moves in the order that the ward set; of two at one place the usual one goes first. */
export const movesInOrder = (settings: WardSettings): readonly FlowMove[] =>
  [...FLOW_MOVES].sort((a, b) => settings[`${a}Place`] - settings[`${b}Place`]);
