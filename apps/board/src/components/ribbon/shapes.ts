import type { BoardRow, RibbonPiece } from '@slackwater/domain';
import { type EpochMs, HOUR_MS, MINUTE_MS } from '@slackwater/domain/time/instant';
import { minuteOf } from './axis.ts';
import { area, line, type Point, TOP_ML } from './paths.ts';

/** The fields of a row that a ribbon is drawn from. */
export type RibbonSource = Pick<
  BoardRow,
  'ribbon' | 'due' | 'visit' | 'next' | 'cavity' | 'inside' | 'laterDrainsAt' | 'cycle'
>;

const LAYERS = [
  /** The water known, painted in full up to now, and its level line. */
  'water',
  'level',
  /** Water expected, from now on. */
  'ahead',
  'aheadLevel',
  /** A drain or fill under way: nobody has measured it yet. */
  'unsure',
  'unsureWater',
  /** A dwell to come. */
  'planned',
  /** The estimate by the book where it differs from the one by the flow: up to now, and from now on. */
  'byTheBook',
  'byTheBookAhead',
  /** The bed of the channel: an empty cavity. */
  'bed',
] as const;

type Layer = (typeof LAYERS)[number];

/** SVG paths in minutes from the origin and mL from the top; fields of nothing known from minute to minute. */
export type Shapes = Record<Layer, string> & { unknown: readonly { from: number; to: number }[] };

/** By how much the two estimates must differ to be told apart, mL; the same as in words. */
const APART_ML = 200;
/** A level that stands from one minute to another. */
const flat = (from: number, to: number, ml: number): readonly Point[] => [
  [from, ml],
  [to, ml],
];

/** How long a fill or an hourly drain, and a drain, are drawn to take, minutes: the true end is not known beforehand. */
const FLOW_MINUTES = 10;
const DRAIN_MINUTES = 20;
/** An hour's drawing reaches from the origin to eight hours beyond the end of that hour. */
const DRAWN_MS = 11 * HOUR_MS;

/**
 * What the ribbon shows: pieces of what was inside, then what is expected. Nothing of it depends on now: what is known
 * is cut at now when it is painted, and so is what is expected, so it stays the same for a whole hour.
 *
 * @param origin the axis' origin, see `originAt`
 */
export const shapesOf = (source: RibbonSource, origin: EpochMs): Shapes => {
  const drawn: Record<Layer, string[]> = {
    water: [],
    level: [],
    ahead: [],
    aheadLevel: [],
    unsure: [],
    unsureWater: [],
    planned: [],
    byTheBook: [],
    byTheBookAhead: [],
    bed: [],
  };
  const unknown: { from: number; to: number }[] = [];
  const x = (instant: EpochMs) => minuteOf(instant, origin);
  const farEnd = origin + DRAWN_MS;
  const dueAt = source.due?.what === 'drain' ? source.due.dueAt : null;

  const draw = (edge: Layer, water: Layer, points: readonly Point[]) => {
    drawn[edge].push(line(points));
    drawn[water].push(area(points));
  };

  const book = (from: EpochMs, fromMl: number) => {
    const { bookMl, flowMl } = source.inside;
    if (bookMl === null || flowMl === null || Math.abs(bookMl - flowMl) <= APART_ML) return;
    const ml = fromMl + bookMl - flowMl;
    drawn.byTheBook.push(line(flat(x(from), x(farEnd), ml)));
    if (dueAt !== null) drawn.byTheBookAhead.push(line(flat(x(from), x(dueAt), ml)));
  };

  /** Up to now the level is known to stand there; beyond, only until the drain is due. */
  const held = (from: EpochMs, ml: number) => {
    draw('level', 'water', flat(x(from), x(farEnd), ml));
    if (dueAt !== null && dueAt > from) draw('aheadLevel', 'ahead', flat(x(from), x(dueAt), ml));
    book(from, ml);
  };

  const draining = ({ from, to, fromMl }: RibbonPiece) => {
    draw('unsure', 'unsureWater', [
      [x(from), fromMl ?? TOP_ML / 2],
      [x(to ?? from + DRAIN_MINUTES * MINUTE_MS), 0],
    ]);
    if (to === null) drawn.unsure.push(line(flat(x(from) + DRAIN_MINUTES, x(farEnd), 0)));
  };

  const filling = ({ from, fromMl, toMl }: RibbonPiece) => {
    if (toMl === null) return;
    const full = x(from) + FLOW_MINUTES;
    draw('unsure', 'unsureWater', [
      [x(from), fromMl ?? 0],
      [full, toMl],
      [x(farEnd), toMl],
    ]);
    drawn.planned.push(line(flat(full, x(source.laterDrainsAt[0] ?? farEnd), toMl)));
  };

  const open = (piece: RibbonPiece) => {
    const { as, from, fromMl } = piece;
    const start = Math.max(from, origin);
    if (as === 'draining') return draining(piece);
    if (as === 'filling') return filling(piece);
    if (as === 'empty' && source.visit === null) return drawn.bed.push(line(flat(x(start), x(farEnd), 0)));
    if (as === 'unknown' || fromMl === null) return unknown.push({ from: x(start), to: x(dueAt ?? farEnd) });
    return held(from, fromMl);
  };

  const past = (piece: RibbonPiece, to: EpochMs) => {
    const { as, from, fromMl, toMl } = piece;
    if (as === 'draining' && toMl === null) return draining(piece);
    if (as === 'unknown' || fromMl === null) return unknown.push({ from: x(Math.max(from, origin)), to: x(to) });
    return draw('level', 'water', [
      [x(from), fromMl],
      [x(to), toMl ?? fromMl],
    ]);
  };

  for (const piece of source.ribbon) {
    if (piece.to === null) open(piece);
    else if (piece.to > origin) past(piece, piece.to);
  }
  drawn.planned.push(...toCome(source, x, farEnd));
  const paths = Object.fromEntries(LAYERS.map((layer) => [layer, drawn[layer].join('')])) as Record<Layer, string>;
  return { ...paths, unknown };
};

/** A dwell to come: the rise of a fill that is due, or the rhythm of an hourly prescription. */
const toCome = (source: RibbonSource, x: (at: EpochMs) => number, farEnd: EpochMs): readonly string[] => {
  const { due, next, cycle, laterDrainsAt } = source;
  if (due === null || next === null) return [];
  const full = next.fillMl;
  if (due.what === 'fill') {
    const from = x(due.dueAt);
    return [
      line([
        [from, 0],
        [from + FLOW_MINUTES, full],
        [x(laterDrainsAt[0] ?? farEnd), full],
      ]),
    ];
  }
  if (cycle === null || due.what !== 'drain') return [];
  const rhythm = [due.dueAt, ...laterDrainsAt].flatMap((drainAt): Point[] => {
    const from = x(drainAt);
    return [
      [from, full],
      [from + FLOW_MINUTES, 0],
      [from + 2 * FLOW_MINUTES, full],
    ];
  });
  return [line(rhythm)];
};
