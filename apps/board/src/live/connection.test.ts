import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { after, type Connection, STREAM_TABLE, type StreamEvent } from './connection.ts';

const start: Connection = { state: 'connecting', heardAt: 0, since: 0 };
const run = (...events: readonly StreamEvent[]) =>
  events.reduce((connection, event, index) => after(connection, event, index + 1), start);

describe('the connection to the stream', () => {
  it('is live as soon as something is heard, whatever was before', () => {
    for (const row of Object.values(STREAM_TABLE)) expect(row.heard).toBe('live');
  });

  it('reconnects when the line breaks, and is stale after the silence', () => {
    expect(run('heard', 'lost').state).toBe('reconnecting');
    expect(run('heard', 'lost', 'lost').since).toBe(2);
    expect(run('heard', 'lost', 'silent')).toEqual({ state: 'stale', heardAt: 1, since: 3 });
  });

  it('never leaves stale without hearing something', () => {
    const deaf = fc.array(fc.constantFrom<StreamEvent>('lost', 'silent'), { maxLength: 20 });
    fc.assert(fc.property(deaf, (events) => run('heard', 'silent', ...events).state === 'stale'));
  });

  it('remembers when it last heard, and never moves it by a loss', () => {
    const events = fc.array(fc.constantFrom<StreamEvent>('heard', 'lost', 'silent'), { maxLength: 20 });
    fc.assert(fc.property(events, (list) => run(...list).heardAt === list.lastIndexOf('heard') + 1));
  });
});
