/** One signed-in person at the public API, over plain HTTP as a browser would come. */
export type Client = {
  get<T>(path: string): Promise<T>;
  post<T>(path: string, body: unknown): Promise<T>;
};

export class Refused extends Error {
  readonly status: number;
  readonly code: string;
  constructor(status: number, code: string, detail: string) {
    super(detail);
    this.status = status;
    this.code = code;
  }
}

export type ClientSession = { account: { id: string; name: string }; demonstration: boolean };

/** Signs in; throws `Refused` with the server's own words when it may not. */
export async function signIn(
  base: string,
  login: string,
  password: string,
): Promise<Client & { session: ClientSession }> {
  let cookie = '';
  const call = async <T>(method: 'GET' | 'POST', path: string, body?: unknown): Promise<T> => {
    const answer = await fetch(base + path, {
      method,
      headers: {
        origin: base,
        ...(cookie && { cookie }),
        ...(body !== undefined && { 'content-type': 'application/json' }),
      },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    });
    cookie = answer.headers.getSetCookie()[0]?.split(';')[0] ?? cookie;
    const text = await answer.text();
    if (answer.ok) return (text === '' ? undefined : JSON.parse(text)) as T;
    const problem = JSON.parse(text || '{}') as { code?: string; detail?: string; title?: string; errors?: unknown };
    const words = `${problem.detail ?? problem.title ?? answer.statusText} ${problem.errors ? JSON.stringify(problem.errors) : ''}`;
    throw new Refused(answer.status, problem.code ?? 'unknown', words.trim());
  };
  const session = await call<ClientSession>('POST', '/api/sign-in', { login, password });
  return { session, get: (path) => call('GET', path), post: (path, body) => call('POST', path, body) };
}
