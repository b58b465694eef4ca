/** What the tabs of one browser tell each other; null where a browser has no such channel. */
const channel = 'BroadcastChannel' in window ? new BroadcastChannel('slackwater outbox') : null;

type Message =
  /** The rows of the outbox are others now. */
  | 'changed'
  /** Somebody signed in or out: what another tab shows may no longer be theirs to see. */
  | 'person';

export const tellTabs = (message: Message): void => channel?.postMessage(message);

export const hearTabs = (listener: (message: Message) => void): void => {
  channel?.addEventListener('message', ({ data }) => listener(data as Message));
};
