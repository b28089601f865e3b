import { defineConfig } from 'vitest/config';

// Tests of the built app: its size, and its life in real browsers. They need `npm run build` first.
export default defineConfig({
  test: {
    environment: 'node',
    include: ['tests/size.test.ts', 'tests/browser/**/*.test.ts'],
    // Two files at a time, each with its own browser; more would keep each other waiting.
    maxWorkers: 2,
    // Of the tests of one file only those run side by side that say so.
    maxConcurrency: 2,
    testTimeout: 120_000,
    hookTimeout: 120_000,
    teardownTimeout: 30_000,
    expect: { poll: { timeout: 5_000 } },
  },
});
