/** What has to be fetched, gzipped, against its budgets. */
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Ground } from '../ground.ts';
import { type Bench, type Row, spreadOf } from '../row.ts';

export const sizeBench: Bench<Ground> = {
  name: 'size',
  parts: [{ what: 'sizes', run: async ({ appDir }) => sizesOf(appDir) }],
};

function sizesOf(appDir: string): readonly Row[] {
  const precached = precachedFiles(appDir);
  const scripts = [...precached.filter(isScript), ...workerScripts(appDir)];
  return [
    rowOf('JS for the bench, gzipped', appDir, scriptsBeforeFirstScreen(appDir, scripts), 60),
    rowOf('all JS, gzipped', appDir, scripts, 200),
    rowOf('whole precache, gzipped', appDir, precached, 1_000),
  ];
}

const isScript = (file: string) => file.endsWith('.js');

function rowOf(what: string, dir: string, files: readonly string[], most: number): Row {
  if (files.length === 0) throw new Error(`${what}: got no files`);
  const bytes = files.reduce((sum, file) => sum + gzippedBytes(join(dir, file)), 0);
  return {
    what,
    unit: 'kB',
    ours: spreadOf([bytes / 1_000]),
    floor: null,
    limits: [{ kind: 'median', most }],
  };
}

function gzippedBytes(path: string): number {
  return gzipSync(readFileSync(path), { level: 9 }).byteLength;
}

function precachedFiles(dir: string): readonly string[] {
  const worker = readFileSync(join(dir, 'sw.js'), 'utf8');
  return [...worker.matchAll(/url:\s*"([^"]+)"/g)].flatMap((match) => match[1] ?? []);
}

/** The worker and its library, which the browser keeps outside the cache. */
function workerScripts(dir: string): readonly string[] {
  return readdirSync(dir).filter(isScript);
}

/** The page's own scripts and all they import at once; what is imported when wanted is not among them. */
function scriptsBeforeFirstScreen(dir: string, scripts: readonly string[]): readonly string[] {
  const found = new Set<string>();
  const follow = (text: string) => {
    for (const file of scripts) {
      if (found.has(file) || !text.includes(basename(file))) continue;
      found.add(file);
      follow(staticImportsOf(readFileSync(join(dir, file), 'utf8')));
    }
  };
  follow(readFileSync(join(dir, 'index.html'), 'utf8'));
  return [...found];
}

function staticImportsOf(code: string): string {
  const imports = code.matchAll(/(?:\bfrom|\bimport)\s*["'`]([^"'`]+)["'`]/g);
  return [...imports].map((match) => match[1]).join(' ');
}
