import { serverClock } from './clock.ts';
import { askForPassword } from './lock.ts';
import { ApiProblem, isLocked, NoAnswer } from './problems.ts';

type Method = 'GET' | 'POST' | 'PATCH';
type Options = { signal?: AbortSignal; headers?: Readonly<Record<string, string>> };

const readBody = async (response: Response): Promise<Record<string, unknown>> => {
  if (response.status === 204) return {};
  if (!/\bjson\b/.test(response.headers.get('content-type') ?? '')) return {};
  return (await response.json()) as Record<string, unknown>;
};

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
    if (options.signal?.aborted) throw cause;
    throw new NoAnswer({ cause });
  }
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
  patch: <T>(path: string, body: unknown, options: Options = {}): Promise<T> => write<T>('PATCH', path, body, options),
};
