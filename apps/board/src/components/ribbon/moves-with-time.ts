import type { EpochMs } from '@slackwater/domain/time/instant';
import { minutes } from '../../live/now.ts';
import { originAt, shiftPercent } from './axis.ts';

type Drawing = HTMLElement | SVGElement;
/** Writes how far the drawing is pushed to the left, in per cent of the axis. */
type Push = (shift: string) => void;

const pushes = new Set<Push>();
let stop: (() => void) | undefined;

const shiftAt = (now: EpochMs): string => shiftPercent(now, originAt(now)).toFixed(3);

const pushAll = () => {
  const shift = shiftAt(minutes.current());
  for (const push of pushes) push(shift);
};

/** @returns what takes the drawing out again, as React asks of a `ref` */
const pushEachMinute = (push: Push): (() => void) => {
  if (pushes.size === 0) stop = minutes.subscribe(pushAll);
  pushes.add(push);
  push(shiftAt(minutes.current()));
  return () => {
    pushes.delete(push);
    if (pushes.size === 0) stop?.();
  };
};

/**
 * As a `ref`: each minute pushes this drawing, as wide as the axis, to the left. Nothing is rendered for it, and it is
 * written on the drawing alone: a custom property on the page would have every element below it styled anew.
 */
export const movesWithTime = (drawing: Drawing | null) =>
  drawing ? pushEachMinute((shift) => drawing.style.setProperty('transform', `translateX(-${shift}%)`)) : undefined;

/** As a `ref`: what stands in a drawing that moves still ends where the axis ends. */
export const endsWithAxis = (note: HTMLElement | null) =>
  note ? pushEachMinute((shift) => note.style.setProperty('right', `-${shift}%`)) : undefined;
