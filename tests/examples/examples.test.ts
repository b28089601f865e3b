/** The worked examples of DEVELOPERS.md are true: each of them works, and none of its steps is too many. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { root } from '../../scripts/ensure.mjs';
import { examplesIn, type Fence } from './fences.ts';
import { openRunner, type Runner } from './runner.ts';
import { copyOfProject, type Tree } from './tree.ts';
import { apply, isCode, verdictOn } from './trial.ts';
import { type Compiler, openCompiler } from './types.ts';

const page = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
const examples = examplesIn(page, 'Worked examples');
const typedFiles = (fences: readonly Fence[]) => [
  ...new Set(fences.filter(isCode).map(({ of }) => of)),
];

let tree: Tree;
let compiler: Compiler;
beforeAll(async () => {
  tree = copyOfProject();
  const tests = examples
    .flatMap(({ fences }) => typedFiles(fences))
    .filter((it) => it.startsWith('tests/'));
  compiler = await openCompiler(tree, tests);
}, 300_000);
afterAll(async () => {
  await compiler?.close();
  tree?.remove();
});

it('there is one for a kind of block, a kind of due, a language and a schema step', () => {
  expect(examples.map(({ title }) => title)).toEqual([
    'A kind of block',
    'A kind of due',
    'A language',
    'A schema step',
  ]);
});

describe.each(examples)('$title', ({ fences }) => {
  const files = typedFiles(fences);
  // One for each example: what languages there are is read when the settings are.
  let opened: Promise<Runner> | undefined;
  const runner = () => {
    opened ??= openRunner(tree.folder);
    return opened;
  };
  afterAll(async () => (await opened)?.close());

  it('compiles and passes its check', async () => {
    expect(await verdictOn(fences, files, { tree, compiler, runner })).toEqual({
      by: 'nobody',
      says: '',
    });
  }, 300_000);

  const steps = fences.slice(0, -1);
  it.each(steps.map(({ of }, n) => ({ n, of })))(
    'is missed without step $n, $of',
    async ({ n }) => {
      const { by } = await verdictOn(fences.toSpliced(n, 1), files, { tree, compiler, runner });
      expect(by).not.toBe('nobody');
    },
    300_000,
  );
});

it('together they compile, and nothing else of the app minds', async () => {
  try {
    const code = examples.flatMap(({ fences }) => fences.filter(isCode));
    expect(await compiler.errors(apply(code, tree))).toEqual([]);
  } finally {
    tree.restore();
  }
}, 300_000);
