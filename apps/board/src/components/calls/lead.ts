/**
 * Leads among the tabs of this browser, as soon as no other does, until it is ended.
 * @param led told when this tab begins to lead
 * @returns a function that ends it: the next tab leads
 */
export function lead(name: string, led: () => void): () => void {
  if (!('locks' in navigator)) {
    led();
    return () => {};
  }
  const ended = new AbortController();
  const hold = () =>
    new Promise<void>((resolve) => {
      if (ended.signal.aborted) return resolve();
      ended.signal.addEventListener('abort', () => resolve());
      led();
    });
  // aborted while it waited for the lock: this tab never led
  navigator.locks.request(name, { signal: ended.signal }, hold).catch(() => {});
  return () => ended.abort();
}
