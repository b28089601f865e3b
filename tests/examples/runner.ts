/** Runs tests of a copy of the project, again and again. */
import { join } from 'node:path';
import { createVitest, type TestCase } from 'vitest/node';

export interface Runner {
  /** What is red in these files, or outside of any test; nothing when all is well. */
  readonly failures: (files: readonly string[]) => Promise<readonly string[]>;
  readonly close: () => Promise<void>;
}

export async function openRunner(folder: string): Promise<Runner> {
  let results: TestCase[] = [];
  const vitest = await createVitest(
    'test',
    {
      root: folder,
      config: join(folder, 'vite.config.ts'),
      watch: false,
      reporters: [{ onTestCaseResult: (it) => void results.push(it) }],
      maxWorkers: 1,
      pool: 'threads',
    },
    { logLevel: 'silent' },
  );
  return {
    failures: async (files) => {
      results = [];
      // Files have changed since, and with them what is made of them.
      for (const { vite } of vitest.projects) vite.moduleGraph.invalidateAll();
      const found = await vitest.globTestSpecifications(files.map((it) => join(folder, it)));
      if (found.length !== files.length)
        return [`got ${found.length} of the files ${files.join(', ')}`];
      const code = process.exitCode;
      const { testModules, unhandledErrors } = await vitest.runTestSpecifications(found);
      // What is red in there is what is wanted here.
      process.exitCode = code;
      const red = results.filter((it) => it.result().state === 'failed').map((it) => it.fullName);
      const outside = [...testModules.flatMap((it) => it.errors()), ...unhandledErrors];
      const ran = results.length === 0 ? ['no test ran'] : [];
      return [...red, ...outside.map(messageOf), ...ran];
    },
    close: () => vitest.close(),
  };
}

function messageOf(error: unknown): string {
  return error instanceof Object && 'message' in error ? String(error.message) : String(error);
}
