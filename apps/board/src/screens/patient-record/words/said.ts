import type { EpochMs, Solution } from '@slackwater/domain';

export type Words = { clock: (at: EpochMs) => string; formulary: readonly Solution[] };

/** What an entry says: the act, and the figures behind it in small. */
export type Said = { what: string; detail: string };

export const said = (what: string, detail: (string | null | false | undefined)[] = []): Said => ({
  what,
  detail: detail.filter(Boolean).join(', '),
});
