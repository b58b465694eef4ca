const BOARD_FIRST_MS = 1500;

/** What no board needs comes after it: the first one is drawn without it on a slow line, too. */
export const afterBoard = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, BOARD_FIRST_MS));

const AGAIN_AFTER_MS = 5_000;

/**
 * What is loaded beside a board that stands already. A line that is lost meanwhile must not take the board with it: it
 * is asked for again until it is there.
 */
export const loadBeside = async <Loaded>(load: () => Promise<Loaded>): Promise<Loaded> => {
  for (;;) {
    try {
      return await load();
    } catch {
      await new Promise((resolve) => setTimeout(resolve, AGAIN_AFTER_MS));
    }
  }
};
