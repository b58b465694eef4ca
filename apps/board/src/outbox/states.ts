/** Where one touch stands on its way. Only `inRecord` is acknowledged. */
export type OutboxState =
  /** Kept on this device, nowhere else. */
  | 'onDevice'
  | 'sending'
  /** What it follows has not arrived at the server yet. */
  | 'afterEarlier'
  /** The device's clock stepped while it waited: a person says when it was. */
  | 'asksForTime'
  | 'inRecord'
  /** Refused for good, and kept on the server until a person decides. */
  | 'keptOnServer';

export type OutboxEvent =
  /** Its turn came, and it left. */
  | 'sent'
  | 'recorded'
  /** No answer, or one that says "later" without a reason of the entry's own. */
  | 'noAnswer'
  | 'tooEarly'
  | 'refused'
  | 'clockStepped'
  | 'timeSaid';

/**
 * What becomes of a touch; a missing cell does not compile. Another tab of the same browser may have sent what this one
 * shows as waiting, so an end is reached from everywhere; nothing leaves an end, and a lost answer never makes one.
 */
export const OUTBOX_TABLE: Record<OutboxState, Record<OutboxEvent, OutboxState>> = {
  onDevice: {
    sent: 'sending',
    recorded: 'inRecord',
    noAnswer: 'onDevice',
    tooEarly: 'afterEarlier',
    refused: 'keptOnServer',
    clockStepped: 'asksForTime',
    timeSaid: 'onDevice',
  },
  sending: {
    sent: 'sending',
    recorded: 'inRecord',
    noAnswer: 'onDevice',
    tooEarly: 'afterEarlier',
    refused: 'keptOnServer',
    clockStepped: 'asksForTime',
    timeSaid: 'sending',
  },
  afterEarlier: {
    sent: 'sending',
    recorded: 'inRecord',
    noAnswer: 'onDevice',
    tooEarly: 'afterEarlier',
    refused: 'keptOnServer',
    clockStepped: 'asksForTime',
    timeSaid: 'afterEarlier',
  },
  asksForTime: {
    sent: 'asksForTime',
    recorded: 'inRecord',
    noAnswer: 'asksForTime',
    tooEarly: 'asksForTime',
    refused: 'keptOnServer',
    clockStepped: 'asksForTime',
    timeSaid: 'onDevice',
  },
  inRecord: {
    sent: 'inRecord',
    recorded: 'inRecord',
    noAnswer: 'inRecord',
    tooEarly: 'inRecord',
    refused: 'inRecord',
    clockStepped: 'inRecord',
    timeSaid: 'inRecord',
  },
  keptOnServer: {
    sent: 'keptOnServer',
    recorded: 'keptOnServer',
    noAnswer: 'keptOnServer',
    tooEarly: 'keptOnServer',
    refused: 'keptOnServer',
    clockStepped: 'keptOnServer',
    timeSaid: 'keptOnServer',
  },
};

/** What is over: the device may forget it. */
export const isEnd = (state: OutboxState): boolean => state === 'inRecord' || state === 'keptOnServer';

/** The three words that a person reads, and what may hold one up. */
export const STATE_WORDS: Record<OutboxState, string> = {
  onDevice: 'on this device',
  sending: 'sending',
  afterEarlier: 'on this device, after the one before it',
  asksForTime: 'on this device, asks for its time',
  inRecord: 'in the record',
  keptOnServer: 'refused, kept on the server',
};
