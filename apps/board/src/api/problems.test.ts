import { expect, test } from 'vitest';
import { ApiProblem, isFinal } from './problems.ts';

// RFC 9110 §15.5.9: after 408 "the client MAY repeat that request"; RFC 8470 §5.2: 425 too, later; RFC 6585 §4: 429 too.
test.each([
  [400, true],
  [403, true],
  [404, true],
  [409, true],
  [422, true],
  [408, false],
  [425, false],
  [429, false],
  [500, false],
  [503, false],
])('an answer %i to what waits ends its sending: %s', (status, final) => {
  expect(isFinal(new ApiProblem(status, {}))).toBe(final);
});
