import { useState } from 'react';

export type Stillness = 'blinks' | 'still';

const KEY = 'slackwater.frame';
const read = (): Stillness => (localStorage.getItem(KEY) === 'still' ? 'still' : 'blinks');
const show = (stillness: Stillness) => {
  document.documentElement.toggleAttribute('data-still', stillness === 'still');
};

/** The person's choice for this device; a device that asks for less motion never blinks anyway. */
export const useStillness = () => {
  const [stillness, set] = useState(read);
  return [
    stillness,
    (next: Stillness) => {
      localStorage.setItem(KEY, next);
      show(next);
      set(next);
    },
  ] as const;
};

/** Once, before the first screen. */
export const applyStillness = (): void => show(read());
