const BOARD_FIRST_MS = 1500;

/** What no board needs comes after it: the first one is drawn without it on a slow line, too. */
export const afterBoard = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, BOARD_FIRST_MS));
