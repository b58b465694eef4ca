type Waiting = { resolve: () => void; reject: (reason: Error) => void };

let waiting: Waiting[] = [];
const listeners = new Set<() => void>();
const tell = () => {
  for (const listener of listeners) listener();
};

/** The person closed the question for the password: nothing was sent, the form keeps what was typed. */
export class StillLocked extends Error {
  override readonly name = 'StillLocked';
  constructor() {
    super('Not sent: the password was not given. What you typed is still here.');
  }
}

/** Resolves once the person has given the password again; rejects with `StillLocked` when they will not. */
export const askForPassword = (): Promise<void> =>
  new Promise((resolve, reject) => {
    waiting.push({ resolve, reject });
    tell();
  });

const settle = (each: (one: Waiting) => void) => {
  const all = waiting;
  waiting = [];
  for (const one of all) each(one);
  tell();
};

/** What the question over the form subscribes to and answers with. */
export const lock = {
  subscribe: (listener: () => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
  isAsking: () => waiting.length > 0,
  unlocked: () => settle((one) => one.resolve()),
  refused: () => settle((one) => one.reject(new StillLocked())),
};
