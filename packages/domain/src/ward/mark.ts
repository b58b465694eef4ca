/**
 * Where a number is from. P: seen in the cited publication · W: seen on a teaching page · M: from memory of the cited
 * source, to be confirmed by the ward's clinical lead · C: computed from a stated formula · T: common practice.
 */
export type Mark = 'P' | 'W' | 'M' | 'C' | 'T';
