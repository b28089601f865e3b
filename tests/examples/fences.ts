/**
 * The worked examples of DEVELOPERS.md as data. A fence is one step: `diff` and a path changes a
 * file, `ts` or `tsx` and a path is a new file, `sh` is run.
 */

export interface Fence {
  readonly kind: 'diff' | 'file' | 'run';
  /** Path from the root of the project; of a fence that is run, its command. */
  readonly of: string;
  readonly text: string;
}

export interface Example {
  readonly title: string;
  readonly fences: readonly Fence[];
}

/** A step that does not fit what it is applied to. */
export class Misfit extends Error {}

/** The examples below a heading `## …`, each under a heading `### …` of its own. */
export function examplesIn(page: string, heading: string): readonly Example[] {
  const [, below = ''] = page.split(`\n## ${heading}\n`);
  const [chapter = ''] = below.split(/\n## /);
  return chapter
    .split(/\n### /)
    .slice(1)
    .map((text) => ({ title: text.slice(0, text.indexOf('\n')), fences: fencesIn(text) }));
}

function fencesIn(text: string): readonly Fence[] {
  return [...text.matchAll(/^```(\w+)(?: (\S+))?\n([\s\S]*?)^```$/gm)].map(
    ([, language = '', path = '', body = '']): Fence => {
      if (language === 'sh') return { kind: 'run', of: body.trim(), text: body };
      if (path === '') throw new Error(`got a fence of ${language} without a path: ${body}`);
      return { kind: language === 'diff' ? 'diff' : 'file', of: path, text: body };
    },
  );
}

/**
 * What a file says after a step. Throws `Misfit` where the lines of a diff, without those that are added, do
 * not stand in it exactly once.
 */
export function after(before: string | null, { kind, of, text }: Fence): string {
  if (kind === 'file') {
    if (before !== null) throw new Misfit(`got a new file ${of} that is there already`);
    return text;
  }
  if (before === null) throw new Misfit(`got a diff of ${of}, which is not there`);
  return text
    .split(/^@@.*\n/m)
    .filter((hunk) => hunk !== '')
    .reduce((file, hunk) => withHunk(file, hunk, of), before);
}

function withHunk(file: string, hunk: string, name: string): string {
  const lines = hunk.replace(/\n$/, '').split('\n');
  const side = (other: string) =>
    `\n${lines
      .filter((line) => !line.startsWith(other))
      .map((line) => line.slice(1))
      .join('\n')}\n`;
  const parts = `\n${file}`.split(side('+'));
  if (parts.length !== 2) {
    throw new Misfit(
      `got these lines ${parts.length - 1} times in ${name}, wanted them once:\n${hunk}`,
    );
  }
  return parts.join(side('-')).slice(1);
}
