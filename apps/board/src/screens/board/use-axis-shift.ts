import { type RefObject, useLayoutEffect } from 'react';
import { originAt, shiftPercent } from '../../components/ribbon/axis.ts';
import { minutes } from '../../live/now.ts';

/** Each minute pushes every drawing on the page to the left by one custom property; nothing is rendered for it. */
export const useAxisShift = (page: RefObject<HTMLElement | null>): void => {
  useLayoutEffect(() => {
    const push = () => {
      const now = minutes.current();
      page.current?.style.setProperty('--shift', shiftPercent(now, originAt(now)).toFixed(3));
    };
    const stop = minutes.subscribe(push);
    push();
    return stop;
  }, [page]);
};
