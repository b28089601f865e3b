/** Steps of an example applied to a copy of the project, and what is then wrong with it. */
import { execFile } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { after, type Fence, Misfit } from './fences.ts';
import type { Runner } from './runner.ts';
import type { Tree } from './tree.ts';
import type { Change, Compiler } from './types.ts';

const run = promisify(execFile);

/** Only what the compiler reads; the rest is applied when types have nothing against it. */
export const isCode = ({ kind, of }: Fence) => kind !== 'run' && /\.tsx?$/.test(of);

/** The last command of an example is its check. */
const CHECK = /^npm run unit -- (.+)$/;

export interface Verdict {
  /** Who saw that something is wrong: nobody when all is well. */
  readonly by: 'nobody' | 'apply' | 'types' | 'check';
  readonly says: string;
}

/** What steps are tried on. */
export interface Bench {
  readonly tree: Tree;
  readonly compiler: Compiler;
  /** Opened when it is first needed. */
  readonly runner: () => Promise<Runner>;
}

const FINE: Verdict = { by: 'nobody', says: '' };

/** Applies the steps, answers the first thing that is wrong, and puts everything back. */
export async function verdictOn(
  steps: readonly Fence[],
  watched: readonly string[],
  { tree, compiler, runner }: Bench,
): Promise<Verdict> {
  try {
    const change = apply(steps.filter(isCode), tree);
    const errors = await compiler.errors(change, watched);
    if (errors.length > 0) return { by: 'types', says: errors.join('\n') };
    return await withoutTypes(steps, tree, runner);
  } catch (error) {
    if (error instanceof Misfit) return { by: 'apply', says: error.message };
    throw error;
  } finally {
    await compiler.errors(tree.restore(), []);
  }
}

/** Writes what the steps come to. Throws `Misfit` where one does not fit. */
export function apply(steps: readonly Fence[], tree: Tree): Change {
  const [changed, created]: [string[], string[]] = [[], []];
  for (const step of steps) {
    const isThere = tree.write(step.of, after(tree.read(step.of), step));
    (isThere ? changed : created).push(step.of);
  }
  return { changed, created };
}

async function withoutTypes(
  steps: readonly Fence[],
  tree: Tree,
  runner: Bench['runner'],
): Promise<Verdict> {
  const files = CHECK.exec(steps.at(-1)?.of ?? '')?.[1]?.split(' ');
  if (files === undefined) throw new Error('got no check, wanted npm run unit -- … at the end');
  const missing = files.filter((it) => !existsSync(join(tree.folder, it)));
  if (missing.length > 0) return { by: 'check', says: `no file ${missing.join(', ')}` };
  for (const step of steps.slice(0, -1).filter((it) => !isCode(it))) {
    if (step.kind === 'run') await command(step.of, steps, tree);
    else apply([step], tree);
  }
  const failures = await (await runner()).failures(files);
  return failures.length === 0 ? FINE : { by: 'check', says: failures.join('\n') };
}

async function command(
  lines: string,
  before: readonly Fence[],
  { folder, made }: Tree,
): Promise<void> {
  for (const line of lines.split('\n')) {
    const [, script = ''] = /^npm run ([a-z]+)$/.exec(line) ?? [];
    const [, empty = ''] = /^mkdir ([\w/]+)$/.exec(line) ?? [];
    const work = () => run(process.execPath, [join(folder, 'scripts', `${script}.mjs`)]);
    if (empty !== '') mkdirSync(join(folder, empty));
    else if (script === 'words') await made(saidIn(before), 'src/catalogues', work);
    else if (script !== '') await work();
    else throw new Error(`got the command ${line}, wanted npm run … or mkdir …`);
  }
}

/** All that the catalogues follow from: what the screens say, and what languages there are. */
const saidIn = (steps: readonly Fence[]) =>
  JSON.stringify(
    steps.filter(
      ({ kind, of, text }) => kind === 'run' || (of.startsWith('src/ui/') && text.includes("t('")),
    ),
  );
