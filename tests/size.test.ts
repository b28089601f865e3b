import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { languages } from '../scripts/catalogues.mjs';
import { root } from '../scripts/ensure.mjs';

// Budgets of our own: what the bench loads before it can be used, all scripts, and all that is
// kept for use without a network.
const benchBudget = 60_000;
// Five sixths of it are fetched only when somebody plans, prints, scans, keeps safe, or asks for endings.
const scriptBudget = 338_000;
// What one screen may fetch when it is opened for the first time, on top of what the bench has loaded.
const roomBudget = 120_000;
// The words of one language more; a device loads the one it speaks, or none.
const catalogueBudget = 45_000;
const precacheBudget = 1_000_000;

const dist = join(root, 'dist');
const files = readdirSync(dist, { recursive: true, encoding: 'utf8' });
const scripts = files.filter((file) => file.endsWith('.js'));
const catalogues = scripts.filter((file) =>
  languages.some((it) => file.startsWith(`assets/${it}-`)),
);

/** Bytes after gzip, level 9. */
function gzipped(file: string): number {
  return gzipSync(readFileSync(join(dist, file)), { level: 9 }).byteLength;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

/** The scripts a text names, as paths in dist: by static import, script tag or module preload. */
function scriptsNamedIn(text: string): readonly string[] {
  return scripts.filter((file) => text.includes(file.slice(file.lastIndexOf('/') + 1)));
}

/** The scripts that have to be there before the first screen: the page's own, and what they import. */
const scriptsOfFirstScreen = () => scriptsFor(readFileSync(join(dist, 'index.html'), 'utf8'));

/** The scripts a text names, with all that they import at once. */
function scriptsFor(names: string): ReadonlySet<string> {
  const found = new Set<string>();
  const follow = (text: string) => {
    for (const file of scriptsNamedIn(text)) {
      if (found.has(file)) continue;
      found.add(file);
      follow(staticImportsOf(readFileSync(join(dist, file), 'utf8')));
    }
  };
  follow(names);
  return found;
}

function staticImportsOf(code: string): string {
  const imports = code.matchAll(/(?:\bfrom|\bimport)\s*["'`]([^"'`]+)["'`]/g);
  return [...imports].map((match) => match[1]).join(' ');
}

interface Picture {
  readonly src: string;
  readonly sizes: string;
  readonly form_factor: string;
}

/** What the browser's install dialogue is told to show. */
function installPictures(): readonly Picture[] {
  return JSON.parse(readFileSync(join(dist, 'manifest.webmanifest'), 'utf8')).screenshots;
}

/** Width × height of a WebP picture of the extended kind, as browsers write them (RFC 9649, 2.7). */
function sizeOfWebp(file: string): string {
  const bytes = readFileSync(join(dist, file));
  if (bytes.toString('latin1', 8, 16) !== 'WEBPVP8X') throw new Error(`got no such WebP: ${file}`);
  return `${bytes.readUIntLE(24, 3) + 1}x${bytes.readUIntLE(27, 3) + 1}`;
}

function precachedFiles(): readonly string[] {
  const worker = readFileSync(join(dist, 'sw.js'), 'utf8');
  return [...worker.matchAll(/url:\s*"([^"]+)"/g)].flatMap((match) => match[1] ?? []);
}

describe('the built app', () => {
  it(`loads at most ${benchBudget} gzipped bytes of script before its first screen`, () => {
    const first = scriptsOfFirstScreen();
    expect(first.size).toBeGreaterThan(0);
    expect(sum([...first].map(gzipped))).toBeLessThanOrEqual(benchBudget);
  });

  it(`has at most ${scriptBudget} gzipped bytes of script in all, but for the words of other languages`, () => {
    expect(scripts.length).toBeGreaterThan(0);
    const spoken = scripts.filter((file) => !catalogues.includes(file));
    expect(sum(spoken.map(gzipped))).toBeLessThanOrEqual(scriptBudget);
  });

  it(`fetches at most ${roomBudget} gzipped bytes of script for what is opened`, () => {
    const first = scriptsOfFirstScreen();
    const opened = scripts.filter((file) => file.startsWith('assets/') && !first.has(file));
    expect(opened.length).toBeGreaterThan(10);
    for (const file of opened) {
      const fetched = [...scriptsFor(file)].filter((it) => !first.has(it));
      expect(sum(fetched.map(gzipped)), file).toBeLessThanOrEqual(roomBudget);
    }
  });

  it(`says everything in another language in at most ${catalogueBudget} gzipped bytes`, () => {
    expect(catalogues).toHaveLength(languages.length);
    for (const file of catalogues) expect(gzipped(file), file).toBeLessThanOrEqual(catalogueBudget);
  });

  it(`keeps at most ${precacheBudget} gzipped bytes for use without a network`, () => {
    const precached = precachedFiles();
    expect(precached).toContain('index.html');
    // As a host sends them.
    expect(sum(precached.map(gzipped))).toBeLessThanOrEqual(precacheBudget);
  });

  it('shows pictures in the install dialogue, wide and narrow, of the size they say, and keeps none', () => {
    const pictures = installPictures();
    expect(new Set(pictures.map((it) => it.form_factor))).toEqual(new Set(['wide', 'narrow']));
    expect(pictures.map(({ src }) => sizeOfWebp(src))).toEqual(pictures.map((it) => it.sizes));
    expect(precachedFiles().filter((it) => it.startsWith('screens/'))).toEqual([]);
  });
});
