import { useLayoutEffect } from 'react';

/** A new step begins at its head, where the patient's name stands; how far the one before was scrolled is not its own. */
export const useTop = (step: string): void => {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the step is not used, it is what scrolls
  useLayoutEffect(() => {
    window.scrollTo(0, 0);
  }, [step]);
};
