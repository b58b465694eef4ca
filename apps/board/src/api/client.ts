import { serverClock } from './clock.ts';
import { askForPassword } from './lock.ts';
import { ApiProblem, isLocked, NoAnswer } from './problems.ts';
import { reached } from './reach.ts';

type Method = 'GET' | 'POST' | 'PATCH';
type Options = { signal?: AbortSignal; headers?: Readonly<Record<string, string>> };

const readBody = async (response: Response): Promise<Record<string, unknown>> => {
  if (response.status === 204) return {};
  if (!/\bjson\b/.test(response.headers.get('content-type') ?? '')) return {};
  return (await response.json()) as Record<string, unknown>;
};

/** Whoever gave up waiting knows as little as one whose line broke. */
const isTimeout = ({ reason }: AbortSignal): boolean =>
  reason instanceof DOMException && reason.name === 'TimeoutError';

/** One answer that hangs says little; what a person writes, and the question who they are, say whether anything goes. */
const tellsOfTheLine = (method: Method, path: string): boolean => method !== 'GET' || path === '/api/session';

const send = async <T>(method: Method, path: string, body: unknown, options: Options): Promise<T> => {
  const sentAt = performance.now();
  let response: Response;
  let answer: Record<string, unknown>;
  try {
    response = await fetch(path, {
      method,
      credentials: 'same-origin',
      headers: {
        accept: 'application/json, application/problem+json',
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...options.headers,
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      ...(options.signal ? { signal: options.signal } : {}),
    });
    answer = await readBody(response);
  } catch (cause) {
    if (options.signal?.aborted && !isTimeout(options.signal)) throw cause;
    if (tellsOfTheLine(method, path)) reached.lost();
    throw new NoAnswer({ cause });
  }
  if (tellsOfTheLine(method, path)) reached.heard();
  if (!response.ok) throw new ApiProblem(response.status, answer);
  if (typeof answer.serverAt === 'number') serverClock.observe(sentAt, performance.now(), answer.serverAt);
  return answer as T;
};

/** A write that meets the idle lock waits for the password and is then sent again, unchanged. */
const write = async <T>(method: Method, path: string, body: unknown, options: Options): Promise<T> => {
  try {
    return await send<T>(method, path, body, options);
  } catch (problem) {
    if (!isLocked(problem)) throw problem;
    await askForPassword();
    return send<T>(method, path, body, options);
  }
};

/**
 * The one way to the API. Answers are trusted to have the contract's shape; anything but a success is thrown as
 * `ApiProblem`, no answer at all as `NoAnswer`.
 */
export const api = {
  get: <T>(path: string, options: Options = {}): Promise<T> => send<T>('GET', path, undefined, options),
  post: <T>(path: string, body?: unknown, options: Options = {}): Promise<T> => write<T>('POST', path, body, options),
  /** The same without a question over the form: for what goes out by itself. */
  postUnasked: <T>(path: string, body: unknown, options: Options = {}): Promise<T> =>
    send<T>('POST', path, body, options),
  patch: <T>(path: string, body: unknown, options: Options = {}): Promise<T> => write<T>('PATCH', path, body, options),
};
