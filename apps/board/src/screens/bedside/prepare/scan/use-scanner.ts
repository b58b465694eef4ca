import { useEffect, useEffectEvent } from 'react';
import { hear, NO_RUN } from './wedge.ts';

const TYPES_INTO = 'input:not([type="checkbox"], [type="radio"]), textarea, select, [contenteditable]';

/** Whether keys belong to something else now: a field that somebody types into, or a question over the screen. */
const isTaken = (target: EventTarget | null): boolean =>
  (target instanceof Element && target.closest(TYPES_INTO) !== null) || document.querySelector('dialog[open]') !== null;

/** Hears a scanner anywhere on the screen but where somebody types. */
export const useScanner = (onScan: (text: string) => void) => {
  const scanned = useEffectEvent(onScan);
  useEffect(() => {
    let run = NO_RUN;
    const listen = (event: KeyboardEvent) => {
      if (isTaken(event.target)) {
        run = NO_RUN;
        return;
      }
      const heard = hear(run, event, event.timeStamp);
      run = heard.run;
      if (heard.taken) event.preventDefault();
      if (heard.scan !== null) scanned(heard.scan);
    };
    window.addEventListener('keydown', listen, { capture: true });
    return () => window.removeEventListener('keydown', listen, { capture: true });
  }, []);
};
