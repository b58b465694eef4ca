import type { Reporter, TestModule } from 'vitest/node';

/** The last line of every run, alone on it: `12 passed, 0 failed`. */
export default class Counts implements Reporter {
  onTestRunEnd(modules: ReadonlyArray<TestModule>, unhandled: ReadonlyArray<unknown>) {
    const states = modules.flatMap((module) => [...module.children.allTests()].map((test) => test.result().state));
    const brokenModules = modules.filter((module) => module.state() === 'failed' && module.errors().length > 0).length;
    const count = (state: string) => states.filter((s) => s === state).length;
    const failed = count('failed') + brokenModules + unhandled.length;
    const skipped = states.length - count('passed') - count('failed');
    process.on('exit', () =>
      console.log(`${count('passed')} passed, ${failed} failed${skipped ? `, ${skipped} skipped` : ''}`),
    );
  }
}
