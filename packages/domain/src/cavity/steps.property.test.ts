import fc from 'fast-check';
import { expect, it } from 'vitest';
import { holdsUndrained, newestDwell } from '../bedside/fluid.ts';
import { fold } from '../bedside/fold.ts';
import { LONDON } from '../testing/bedside.ts';
import { PATIENT } from '../testing/course.ts';
import { attempts, courseOf } from '../testing/random-course.ts';
import { insideSteps } from './steps.ts';

it('every step leads from the figures before it to the next one, and the last to what the fold says is inside', () => {
  fc.assert(
    fc.property(attempts(60), (tried) => {
      const { entries } = courseOf(tried);
      const { state, dwells } = fold(PATIENT, entries, LONDON);
      const steps = insideSteps(dwells, LONDON);
      const newest = newestDwell(state);
      for (const [index, step] of steps.entries()) {
        const next = steps[index + 1];
        if (next) expect(next.before).toEqual(step.after);
        // By the book, written out again: B ← max(0, B + fill + U − drained); computed from the stated rule.
        const { bookMl } = step.before;
        const known = bookMl !== null && step.filledMl !== null && step.drainedMl !== null && step.ufMl !== null;
        if (step.reset !== null || !known || step.stopped === null) continue;
        const byHand = Math.max(0, bookMl + step.filledMl! + step.ufMl! - step.drainedMl!);
        expect(step.after.bookMl).toBeCloseTo(byHand, 6);
      }
      if (newest !== null && !holdsUndrained(state)) expect(steps.at(-1)?.after).toEqual(state.inside);
      for (const step of steps.filter(({ reset }) => reset !== null)) {
        expect(step.after).toMatchObject({ bookMl: LONDON.settings.residualMl, sinceEmpty: { dwells: 0 } });
      }
    }),
    { numRuns: 60 },
  );
});
