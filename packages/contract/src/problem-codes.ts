/** Every way in which a request can fail, with its HTTP status and what a person reads first. */
export const PROBLEMS = {
  invalid: { status: 400, title: 'The request is not as it should be' },
  notSignedIn: { status: 401, title: 'Sign in first' },
  wrongSignIn: { status: 401, title: 'Name or password is wrong' },
  locked: { status: 423, title: 'Writing is locked: enter your password again' },
  notAllowed: { status: 403, title: 'Your role does not allow this' },
  foreignOrigin: { status: 403, title: 'The request came from another site' },
  notFound: { status: 404, title: 'There is nothing here that you may see' },
  conflict: { status: 409, title: 'Somebody else was faster' },
  idTaken: { status: 409, title: 'This id stands for something else' },
  taken: { status: 409, title: 'This is taken already' },
  codeUsed: { status: 410, title: 'This code was used, has ended or is not one' },
  linkUsed: { status: 410, title: 'This link was used or has ended' },
  tooLarge: { status: 413, title: 'The request is too large' },
  wrongMediaType: { status: 415, title: 'This kind of content is not read here' },
  refused: { status: 422, title: 'This may not be recorded' },
  unknownAfter: { status: 425, title: 'The step before this one has not arrived yet: send again later' },
  tooManyAttempts: { status: 429, title: 'Too many attempts: wait a little' },
  internal: { status: 500, title: 'The server failed: nothing was recorded' },
  full: { status: 503, title: 'The disk of the server is full: nothing was recorded' },
  busy: { status: 503, title: 'The server is busy: send again shortly' },
} as const satisfies Record<string, { status: number; title: string }>;

/** The stable name of a failure; it never changes its meaning. */
export type ProblemCode = keyof typeof PROBLEMS;
