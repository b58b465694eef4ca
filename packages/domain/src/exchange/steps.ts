/** Where the visit to the bed stands. The cavity is a state of its own: a patient being prepared still dwells. */
export type VisitState = 'none' | 'preparing' | 'connected' | 'draining' | 'drained' | 'filling' | 'closing';

/** What a nurse may record next. Observations (appearance, measures, comfort …) are no steps: they commute. */
export type Step =
  | 'prepare'
  | 'connect'
  | 'startDrain'
  | 'endDrain'
  | 'startFill'
  | 'endFill'
  | 'close'
  | 'stop'
  | 'resume';

export const STEPS: readonly Step[] = [
  'prepare',
  'connect',
  'startDrain',
  'endDrain',
  'startFill',
  'endFill',
  'close',
  'stop',
  'resume',
];

/** Whether a kind of entry is a step of a visit. */
export const isStep = (kind: string): kind is Step => (STEPS as readonly string[]).includes(kind);
