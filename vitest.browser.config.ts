import { defineConfig } from 'vitest/config';

// Tests of the built app: its size, and its life in real browsers. They need `npm run build` first.
export default defineConfig({
  test: {
    environment: 'node',
    include: ['tests/size.test.ts', 'tests/browser/**/*.test.ts'],
    // One browser at a time: two would measure each other.
    fileParallelism: false,
    maxConcurrency: 1,
    testTimeout: 120_000,
    hookTimeout: 120_000,
    teardownTimeout: 30_000,
    expect: { poll: { timeout: 5_000 } },
  },
});
