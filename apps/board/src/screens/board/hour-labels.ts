/** Where a label of an hour has room: clear of the mark of now and of the edge, in per cent; and how many hours apart. */
type Room = { from: number; to: number; apart: number };

/** From 1,400 px on; the axis is 220 px wide there. A label takes 40 px, the mark of now 36. */
export const ROOMY: Room = { from: 38, to: 94, apart: 2 };
/** Below; the axis is 150 px wide. */
export const NARROW: Room = { from: 46, to: 88, apart: 3 };

/**
 * Which hours are labelled: the first that is clear of now, and from it every so many.
 * @param lefts the places of the full hours on the axis, in per cent, in their order
 */
export const labelled = (lefts: readonly number[], { from, to, apart }: Room): readonly number[] => {
  const first = lefts.findIndex((left) => left >= from);
  return lefts.flatMap((left, index) => (index >= first && (index - first) % apart === 0 && left <= to ? [index] : []));
};
