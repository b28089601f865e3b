/**
 * Runs a test of the suite on the app's own code with one protection taken out, and answers what that
 * test said. The wrong code exists in the memory of this run only.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createVitest, type TestCase, type Vitest } from 'vitest/node';

/** A protection, how it is taken out, and the test that must then fail. */
export interface Protection {
  /** What is protected, as a fact. */
  readonly title: string;
  /** The file it stands in, below `src`. */
  readonly file: string;
  /** The code that protects, there exactly once, and what stands in its place. */
  readonly code: string;
  readonly wrong: string;
  /** The file of the test, below `tests`, and words of its whole name. */
  readonly test: string;
  readonly says: string;
}

export interface Verdict {
  /** Whether the wrong code was loaded at all. */
  readonly isLoaded: boolean;
  /** How many tests of that name ran. */
  readonly ran: number;
  /** Names of those that failed on what they check. */
  readonly failed: readonly string[];
  /** What failed otherwise: a file that does not load, a test that waited too long proves nothing. */
  readonly otherwise: readonly string[];
}

export interface Trial {
  readonly verdict: (protection: Protection) => Promise<Verdict>;
  readonly close: () => Promise<void>;
}

const root = fileURLToPath(new URL('../..', import.meta.url));
/** Milliseconds a run may take. */
const LIMIT_MS = 60_000;

export async function openTrial(): Promise<Trial> {
  let results: TestCase[] = [];
  let wrong: { readonly path: string; readonly text: string } | null = null;
  let isLoaded = false;
  const served = (id: string): string | null => {
    if (id !== wrong?.path) return null;
    isLoaded = true;
    return wrong.text;
  };
  const vitest = await createVitest(
    'test',
    {
      root,
      watch: false,
      reporters: [{ onTestCaseResult: (it) => void results.push(it) }],
      maxWorkers: 1,
      pool: 'threads',
      setupFiles: ['tests/seed.ts', 'tests/protections/firstFailure.ts'],
    },
    {
      logLevel: 'silent',
      plugins: [
        {
          name: 'without-protection',
          enforce: 'pre',
          transform: (_code, id) => served(id),
        },
      ],
    },
  );
  return {
    verdict: async (protection) => {
      const path = join(root, 'src', protection.file);
      wrong = { path, text: textWithout(protection, readFileSync(path, 'utf8')) };
      isLoaded = false;
      results = [];
      vitest.invalidateFile(path);
      try {
        const broken = await run(vitest, protection);
        return { isLoaded, ...judged(results), otherwise: [...waited(results), ...broken] };
      } finally {
        wrong = null;
        vitest.invalidateFile(path);
      }
    },
    close: () => vitest.close(),
  };
}

function textWithout({ code, wrong, file }: Protection, text: string): string {
  const parts = text.split(code);
  if (parts.length !== 2)
    throw new Error(`got the code ${parts.length - 1} times in ${file}, wanted it once: ${code}`);
  return parts.join(wrong);
}

/** Answers what went wrong outside of tests. */
async function run(vitest: Vitest, { test, says }: Protection): Promise<readonly string[]> {
  vitest.setGlobalTestNamePattern(new RegExp(escaped(says)));
  const files = await vitest.globTestSpecifications([join(root, 'tests', test)]);
  const code = process.exitCode;
  const limit = setTimeout(() => void vitest.cancelCurrentRun('keyboard-input'), LIMIT_MS);
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(files);
  clearTimeout(limit);
  // What is red in there is what is wanted here.
  process.exitCode = code;
  return [...testModules.flatMap((it) => it.errors()), ...unhandledErrors].map(
    (error) => (error as { readonly message?: string }).message ?? 'an error without words',
  );
}

const isRed = (it: TestCase) => it.result().state === 'failed';
const hasWaited = (it: TestCase) =>
  isRed(it) && it.result().errors?.some(({ message }) => message.includes('timed out')) === true;

function judged(results: readonly TestCase[]): Pick<Verdict, 'ran' | 'failed'> {
  const red = results.filter((it) => isRed(it) && !hasWaited(it));
  return {
    ran: results.filter((it) => it.result().state !== 'skipped').length,
    failed: red.map(({ fullName }) => fullName),
  };
}

const waited = (results: readonly TestCase[]) =>
  results.filter(hasWaited).map(({ fullName }) => `waited too long: ${fullName}`);

const escaped = (words: string) => words.replaceAll(/[\\^$.*+?()[\]{}|]/g, '\\$&');
