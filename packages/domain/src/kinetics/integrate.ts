/** Writes dy/dt at `minute` into `rate`. */
export type Rates = (minute: number, state: Float64Array, rate: Float64Array) => void;

/**
 * One classical Runge–Kutta step of fourth order, in place. The equations are not stiff, so the simplest method does;
 * an adaptive solver would need fewer evaluations and more words.
 */
export function rungeKuttaStep(
  rates: Rates,
  minute: number,
  stepMinutes: number,
  state: Float64Array,
  work: Workspace,
): void {
  const { k1, k2, k3, k4, probe } = work;
  const half = stepMinutes / 2;
  rates(minute, state, k1);
  advance(state, k1, half, probe);
  rates(minute + half, probe, k2);
  advance(state, k2, half, probe);
  rates(minute + half, probe, k3);
  advance(state, k3, stepMinutes, probe);
  rates(minute + stepMinutes, probe, k4);
  for (let i = 0; i < state.length; i++) {
    const slope = k1[i]! + 2 * k2[i]! + 2 * k3[i]! + k4[i]!;
    state[i] = state[i]! + (stepMinutes / 6) * slope;
  }
}

export type Workspace = Record<'k1' | 'k2' | 'k3' | 'k4' | 'probe', Float64Array>;

export const workspace = (size: number): Workspace => ({
  k1: new Float64Array(size),
  k2: new Float64Array(size),
  k3: new Float64Array(size),
  k4: new Float64Array(size),
  probe: new Float64Array(size),
});

function advance(from: Float64Array, slope: Float64Array, minutes: number, to: Float64Array): void {
  for (let i = 0; i < from.length; i++) to[i] = from[i]! + minutes * slope[i]!;
}
