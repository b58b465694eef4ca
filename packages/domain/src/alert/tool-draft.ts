import type { Payloads } from '../record/entry.ts';

/** An entry that the tool itself must write; the server gives it an id, a time and a place. */
export type ToolDraft = {
  [K in 'alertRaised' | 'alertEscalated' | 'alertCleared']: { kind: K; payload: Payloads[K] };
}['alertRaised' | 'alertEscalated' | 'alertCleared'];
