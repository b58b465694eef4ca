import type { Payloads } from '../record/entry.ts';

/** What only the tool itself says of what it sees. */
type ToolKind = 'alertRaised' | 'alertEscalated' | 'alertCleared' | 'workUpOpened';

/** An entry that the tool itself must write; the server gives it an id, a time and a place. */
export type ToolDraft = { [K in ToolKind]: { kind: K; payload: Payloads[K] } }[ToolKind];
