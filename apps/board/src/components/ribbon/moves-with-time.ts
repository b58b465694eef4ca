import { minutes } from '../../live/now.ts';
import { originAt, shiftPercent } from './axis.ts';

type Drawing = HTMLElement | SVGElement;

const drawings = new Set<Drawing>();
let stop: (() => void) | null = null;

const transformAt = (now: number): string => `translateX(-${shiftPercent(now, originAt(now)).toFixed(3)}%)`;

const pushAll = () => {
  const transform = transformAt(minutes.current());
  for (const drawing of drawings) drawing.style.transform = transform;
};

/**
 * As a `ref`: each minute pushes this drawing, as wide as the axis, to the left. Nothing is rendered for it, and the
 * transform is written on the drawing alone: a custom property on the page would have every element below it styled anew.
 */
export const movesWithTime = (drawing: Drawing | null) => {
  if (drawing === null) return;
  if (drawings.size === 0) stop = minutes.subscribe(pushAll);
  drawings.add(drawing);
  drawing.style.transform = transformAt(minutes.current());
  return () => {
    drawings.delete(drawing);
    if (drawings.size === 0) stop?.();
  };
};
