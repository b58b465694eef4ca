/**
 * Calls back whenever the page comes into sight again: another tab was in front, or the device slept.
 * @returns ends it
 */
export const whenInSight = (react: () => void): (() => void) => {
  const changed = () => {
    if (document.visibilityState === 'visible') react();
  };
  document.addEventListener('visibilitychange', changed);
  return () => document.removeEventListener('visibilitychange', changed);
};
