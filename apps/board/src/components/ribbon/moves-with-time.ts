import { minutes } from '../../live/now.ts';
import { originAt, shiftPercent } from './axis.ts';

/** How far beyond the edge a drawing is in sight already. */
const NEAR = '200px';

type Drawing = HTMLElement | SVGElement;
/** Writes how far the drawing is pushed to the left, in per cent of the axis. */
type Push = (shift: string) => void;

/** All drawings there are; those in sight are pushed each minute, the others when they come into it. */
const pushes = new Map<Element, Push>();
const inSight = new Set<Element>();
let stop: (() => void) | undefined;

const shiftNow = (): string => {
  const now = minutes.current();
  return shiftPercent(now, originAt(now)).toFixed(3);
};

const pushThoseInSight = () => {
  const shift = shiftNow();
  for (const drawing of inSight) pushes.get(drawing)?.(shift);
};

const sight = new IntersectionObserver(
  (changes) => {
    const shift = shiftNow();
    for (const { target, isIntersecting } of changes) {
      if (isIntersecting) inSight.add(target);
      else inSight.delete(target);
      if (isIntersecting) pushes.get(target)?.(shift);
    }
  },
  // a little ahead of who scrolls
  { rootMargin: NEAR, scrollMargin: NEAR },
);

/** @returns what takes the drawing out again, as React asks of a `ref` */
const pushEachMinute = (drawing: Drawing, push: Push): (() => void) => {
  if (pushes.size === 0) stop = minutes.subscribe(pushThoseInSight);
  pushes.set(drawing, push);
  sight.observe(drawing);
  push(shiftNow());
  return () => {
    sight.unobserve(drawing);
    pushes.delete(drawing);
    inSight.delete(drawing);
    if (pushes.size === 0) stop?.();
  };
};

/**
 * As a `ref`: each minute pushes this drawing, as wide as the axis, to the left. Nothing is rendered for it, and it is
 * written on the drawing alone: a custom property on the page would have every element below it styled anew.
 */
export const movesWithTime = (drawing: Drawing | null) =>
  drawing
    ? pushEachMinute(drawing, (shift) => drawing.style.setProperty('transform', `translateX(-${shift}%)`))
    : undefined;

/** As a `ref`: what stands in a drawing that moves still ends where the axis ends. */
export const endsWithAxis = (note: HTMLElement | null) =>
  note ? pushEachMinute(note, (shift) => note.style.setProperty('right', `-${shift}%`)) : undefined;
