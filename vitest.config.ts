import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    globalSetup: ['tests/support/global-setup.ts'],
    reporters: ['default', './tests/support/counts.ts'],
    // One more than the two cores it is meant for: a test mostly waits for a browser, a server or a database.
    maxWorkers: 3,
    // What comes true in a while comes later on a busy machine; how fast it is, the bench says.
    expect: { poll: { timeout: 20_000 } },
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          // pure functions: nothing that one file leaves behind meets another, and a process for each costs more than they
          isolate: false,
          testTimeout: 30_000,
          include: [
            'packages/**/*.test.ts',
            'apps/**/*.test.ts',
            'tests/reference/**/*.test.ts',
            'tests/guards/**/*.test.ts',
          ],
        },
      },
      {
        extends: true,
        test: {
          name: 'api',
          include: ['tests/api/**/*.test.ts', 'tests/hostile/**/*.test.ts', 'tests/fault/**/*.test.ts'],
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: { name: 'browser', include: ['tests/browser/**/*.test.ts'], testTimeout: 60_000, hookTimeout: 120_000 },
      },
    ],
  },
});
