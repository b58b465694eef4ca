import type { EpochMs } from '@slackwater/domain/time/instant';
import { minutes } from './now.ts';

/**
 * Writes words that count minutes into an element, at once and at each turn of the minute, past React: dozens change
 * together then, and nothing else does.
 *
 * @param read the words at a full minute of the ward's time
 * @returns what ends it, as React asks of a `ref`
 */
export const writeEachMinute = (element: HTMLElement, read: (minute: EpochMs) => string): (() => void) => {
  const words = element.firstChild ?? element.appendChild(document.createTextNode(''));
  const write = () => {
    const next = read(minutes.current());
    if (words.nodeValue !== next) words.nodeValue = next;
  };
  write();
  return minutes.subscribe(write);
};
