import type { AlertRank } from '@slackwater/domain';

/** One address of a paging system, from the configuration alone. */
export type Hook = {
  /** Scheme, host, port and path; its secret stands beside it and is shown nowhere. */
  url: string;
  /** The key of its signatures. */
  key: Buffer;
  /** The alerts that it is told of. */
  ranks: readonly AlertRank[];
};

export type Hooks = {
  hooks: readonly Hook[];
  /** Addresses and ranges of the hospital's own network, loopback among them, that may be reached. */
  inside: readonly string[];
};

export const NO_HOOKS: Hooks = { hooks: [], inside: [] };
