import { maxHeaderSize } from 'node:http';
import type { Socket } from 'node:net';
import type { FieldProblem, ProblemCode, ProblemDocument } from '@slackwater/contract';
import { PROBLEMS } from '@slackwater/contract';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { isDatabaseAway, isDiskFull } from './database-away.ts';
import { ProblemError } from './problems.ts';
import { problemsOf } from './problems.zod.ts';

/** What the framework itself refuses, by its error code. */
const BY_FRAMEWORK: Record<string, { code: ProblemCode; detail: string }> = {
  FST_ERR_CTP_BODY_TOO_LARGE: { code: 'tooLarge', detail: 'Send less at once.' },
  FST_ERR_CTP_INVALID_MEDIA_TYPE: {
    code: 'wrongMediaType',
    detail: 'Send application/json; a flow sheet as text/csv.',
  },
  FST_ERR_CTP_INVALID_JSON_BODY: { code: 'invalid', detail: 'The body is not JSON.' },
  FST_ERR_CTP_EMPTY_JSON_BODY: { code: 'invalid', detail: 'The body is empty.' },
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: { code: 'invalid', detail: 'The length of the body is not the one announced.' },
  FST_ERR_BAD_URL: { code: 'invalid', detail: 'The address is not well formed.' },
};

type Unread = { status: number; reason: string; problem: ProblemError };
const UNREADABLE: Unread = {
  status: 400,
  reason: 'Bad Request',
  problem: new ProblemError('invalid', 'This is not HTTP.'),
};

const FULL_DISK =
  'There is no space left on the disk of the server: nothing was recorded. Tell whoever runs it, and send it again later.';

/** What the parser of HTTP itself refuses, by its error code; its statuses are more exact than those of our codes. */
const BY_PARSER: Record<string, Unread> = {
  HPE_HEADER_OVERFLOW: {
    status: 431,
    reason: 'Request Header Fields Too Large',
    problem: new ProblemError('tooLarge', `The head of a request has at most ${maxHeaderSize / 1024} KiB.`),
  },
  ERR_HTTP_REQUEST_TIMEOUT: {
    status: 408,
    reason: 'Request Timeout',
    problem: new ProblemError('invalid', 'The request did not arrive in time.'),
  },
};

/** Answers every failure as a problem document. */
export function answerProblems(app: FastifyInstance) {
  app.setValidatorCompiler<z.ZodType>(({ schema, httpPart }) => (data) => {
    const read = schema.safeParse(data, { reportInput: true });
    return read.success ? { value: read.data } : { error: invalid(problemsOf(read.error, httpPart ?? 'body')) };
  });
  app.setErrorHandler((error: Error & { code?: string; statusCode?: number }, request, reply) => {
    send(asProblem(error, request), request, reply);
  });
}

/** Answers what the framework refuses before it looks for a route; an option of `Fastify()`. */
export function answerFrameworkError(error: Error, request: FastifyRequest, reply: FastifyReply) {
  send(asProblem(error, request), request, reply);
}

/**
 * Answers what is no request at all, so that it has no route and no number: a broken first line, a head too large or
 * too slow. An option of `Fastify()`.
 */
export function answerConnectionError(error: NodeJS.ErrnoException, socket: Socket) {
  if (error.code === 'ECONNRESET' || !socket.writable) return socket.destroy();
  const { status, reason, problem } = BY_PARSER[error.code ?? ''] ?? UNREADABLE;
  const body = JSON.stringify({ ...documentOf(problem, 'unread'), status });
  socket.write(
    `HTTP/1.1 ${status} ${reason}\r\ncontent-type: application/problem+json; charset=utf-8\r\n` +
      `content-length: ${Buffer.byteLength(body)}\r\ncache-control: no-store\r\nconnection: close\r\n\r\n${body}`,
  );
  // a client that never closes its own half would keep the connection for ever
  socket.destroySoon();
}

/** Answers what no route takes. */
export const answerNotFound = (request: FastifyRequest, reply: FastifyReply) =>
  send(new ProblemError('notFound', `There is no ${request.method} ${request.url.split('?')[0]}.`), request, reply);

/** A request whose fields are wrong. */
export function invalid(errors: readonly FieldProblem[]): ProblemError {
  return new ProblemError('invalid', errors.map(({ message }) => `${message}.`).join(' '), { errors });
}

function asProblem(error: Error & { code?: string; statusCode?: number }, request: FastifyRequest): ProblemError {
  if (error instanceof ProblemError) return error;
  const known = BY_FRAMEWORK[error.code ?? ''];
  if (known) return new ProblemError(known.code, known.detail);
  if (isDatabaseAway(error)) {
    request.log.warn({ err: error }, 'the database is away');
    return new ProblemError('busy', 'The database cannot be reached at the moment.', { retryAfterS: 2 });
  }
  if (isDiskFull(error)) {
    request.log.error({ err: error }, 'a disk is full');
    return new ProblemError('full', FULL_DISK, { retryAfterS: 10 });
  }
  if (error.statusCode !== undefined && error.statusCode >= 400 && error.statusCode < 500) {
    return new ProblemError('invalid', 'The request could not be read.');
  }
  // the caller learns the request's number only; what happened stands in the log
  request.log.error({ err: error }, 'a request failed');
  return new ProblemError('internal', 'Tell whoever runs this server the number of this request.');
}

const documentOf = ({ code, status, message, more }: ProblemError, requestId: string): ProblemDocument => ({
  type: `urn:slackwater:problem:${code}`,
  code,
  title: PROBLEMS[code].title,
  status,
  detail: message,
  instance: `urn:slackwater:request:${requestId}`,
  errors: more.errors ?? [],
  ...(more.conflict === undefined ? {} : { conflict: more.conflict }),
  ...(more.retryAfterS === undefined ? {} : { retryAfterS: more.retryAfterS }),
});

function send(problem: ProblemError, request: FastifyRequest, reply: FastifyReply) {
  const { retryAfterS } = problem.more;
  if (retryAfterS !== undefined) reply.header('retry-after', Math.ceil(retryAfterS));
  return reply
    .code(problem.status)
    .header('cache-control', 'no-store')
    .type('application/problem+json; charset=utf-8')
    .send(JSON.stringify(documentOf(problem, request.id)));
}
