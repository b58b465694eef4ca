import type { FieldProblem, ProblemDocument } from '@slackwater/contract';

/** An answer of the API that is not a success (RFC 9457 problem details). */
export class ApiProblem extends Error {
  override readonly name = 'ApiProblem';
  readonly status: number;
  readonly code: ProblemDocument['code'] | 'unreadable';
  readonly errors: readonly FieldProblem[];
  /** Only with `conflict`: what was recorded instead. */
  readonly conflict: ProblemDocument['conflict'];

  /** @param document what the body said; anything in front of the server may answer without one */
  constructor(status: number, document: Partial<ProblemDocument>) {
    super(document.detail ?? document.title ?? `The server answered ${status} and said no more.`);
    this.status = status;
    this.code = document.code ?? 'unreadable';
    this.errors = document.errors ?? [];
    this.conflict = document.conflict;
  }
}

/** No answer came: nothing is known of what the server did with it. Sending the same again is safe. */
export class NoAnswer extends Error {
  override readonly name = 'NoAnswer';
  constructor(options?: ErrorOptions) {
    super('No connection to the ward’s server.', options);
  }
}

/** Nobody is signed in, or the session came to its end. */
export const isSignedOut = (problem: unknown): boolean =>
  problem instanceof ApiProblem && problem.code === 'notSignedIn';

/** The session sat idle and asks for the password before it writes. */
export const isLocked = (problem: unknown): boolean => problem instanceof ApiProblem && problem.code === 'locked';

/** The server, or its database, cannot be reached: the same question may be answered in a while. */
export const isAway = (problem: unknown): boolean =>
  problem instanceof NoAnswer || (problem instanceof ApiProblem && problem.status >= 500);

/** Answers about how a request came, not about what it says: too slowly (408), too early (425), too often (429). */
const OF_THE_WAY: ReadonlySet<number> = new Set([408, 425, 429]);

/** What was sent is refused, and would be again. Anything else may be sent once more as it is. */
export const isFinal = ({ status }: ApiProblem): boolean => status >= 400 && status < 500 && !OF_THE_WAY.has(status);

/** Words for a person, whatever went wrong. */
export const wordsOf = (problem: unknown): string =>
  problem instanceof Error ? problem.message : 'Something went wrong that nobody foresaw.';
