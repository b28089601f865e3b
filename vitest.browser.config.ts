import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** The longest first, so that none is left alone at the end while the other worker has nothing to do. */
const LONGEST = [
  'durable/kills',
  'accessibility',
  'rescue',
  'weave/keys',
  'warping',
  'weave/layout',
  'travel/arrive',
  'engines',
  'picture',
  'weave/cloth',
  'weave/undo',
  'keep/keep',
  'after/measure',
  'weave/corrections',
  'plan/planner',
  'paper/paper',
  'weave/measuring',
  'keep/layout',
  'offline',
  'yarns',
  'plan/layout',
  'spokenWithout',
  'motifs/motifs',
  'weave/hearing',
  'travel/scan',
  'after/journal',
  'weave/weave',
  'durable/windows',
  'motifs/layout',
  'weave/kill',
  'weave/byEye',
  'travel/share',
  'keep/reminder',
  'update',
  'warps/firstVisit',
  'words',
];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const placeOf = ({ moduleId }: TestSpecification) => {
      const place = LONGEST.findIndex((name) => moduleId.endsWith(`/${name}.test.ts`));
      return place < 0 ? LONGEST.length : place;
    };
    return (await super.sort(files)).toSorted((a, b) => placeOf(a) - placeOf(b));
  }
}

// Tests of the built app: its size, and its life in real browsers. They need `npm run build` first.
export default defineConfig({
  test: {
    environment: 'node',
    globalSetup: 'tests/browser/tidy.ts',
    include: ['tests/size.test.ts', 'tests/browser/**/*.test.ts'],
    sequence: { sequencer: LongestFirst },
    // Two files at a time; more would keep each other waiting.
    maxWorkers: 2,
    // The drivers are read in once, not once a file, and one Chromium serves a whole row of files.
    isolate: false,
    // Of the tests of one file only those run side by side that say so.
    maxConcurrency: 2,
    testTimeout: 120_000,
    hookTimeout: 120_000,
    teardownTimeout: 30_000,
    expect: { poll: { timeout: 5_000 } },
  },
});
