const AFTER_TROUBLE_MS = 1_000;

export type Watch = {
  /** Looks at the latest after so many milliseconds. */
  lookIn(ms: number): void;
  /** Looks no more; waits for the look under way. */
  stop(): Promise<void>;
};

/**
 * Looks again and again at what stands in the database, one look at a time.
 * @param look deals with all that is due; answers after how many milliseconds to look again
 */
export function createWatch(look: () => Promise<number>, onTrouble: (error: Error) => void): Watch {
  let timer: NodeJS.Timeout | undefined;
  let lookAt = Number.POSITIVE_INFINITY;
  let running: Promise<void> | null = null;
  let isStopped = false;
  /** Somebody asked while a look was under way: what it saw may be old already. */
  let isAskedAgain = false;

  function lookIn(ms: number): void {
    if (isStopped) return;
    const at = performance.now() + ms;
    if (at >= lookAt) return;
    lookAt = at;
    clearTimeout(timer);
    timer = setTimeout(run, ms);
  }

  function run(): void {
    lookAt = Number.POSITIVE_INFINITY;
    if (running !== null) {
      isAskedAgain = true;
      return;
    }
    isAskedAgain = false;
    running = look()
      .catch((error) => {
        onTrouble(error);
        return AFTER_TROUBLE_MS;
      })
      .then((waitMs) => {
        running = null;
        lookIn(isAskedAgain ? 0 : waitMs);
      });
  }

  return {
    lookIn,
    async stop() {
      isStopped = true;
      clearTimeout(timer);
      await running;
    },
  };
}
