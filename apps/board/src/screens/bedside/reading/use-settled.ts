import { useEffect, useState } from 'react';

/** While somebody types, nothing is compared: half a number says nothing, and nobody shall type what was expected. */
const SETTLED_AFTER_MS = 900;

/** Whether a typed text has stood still for a moment. */
export const useSettled = (typed: string): boolean => {
  const [settled, setSettled] = useState('');
  useEffect(() => {
    const timer = setTimeout(() => setSettled(typed), SETTLED_AFTER_MS);
    return () => clearTimeout(timer);
  }, [typed]);
  return settled === typed && typed !== '';
};
