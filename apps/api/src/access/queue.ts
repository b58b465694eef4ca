/** At most `atOnce` tasks run, at most `mostWaiting` wait; one more is not taken and `null` says so. */
export function boundedQueue(atOnce: number, mostWaiting: number) {
  let running = 0;
  const waiting: (() => void)[] = [];

  return function enqueue<T>(task: () => Promise<T>): Promise<T> | null {
    if (running >= atOnce && waiting.length >= mostWaiting) return null;
    return run(task);
  };

  async function run<T>(task: () => Promise<T>): Promise<T> {
    if (running >= atOnce) await new Promise<void>((resolve) => waiting.push(resolve));
    else running += 1;
    try {
      return await task();
    } finally {
      // the place is handed on, so that nobody slips in between
      const next = waiting.shift();
      if (next) next();
      else running -= 1;
    }
  }
}
