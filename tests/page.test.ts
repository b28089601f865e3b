/** What DEVELOPERS.md and README.md name is there. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../scripts/ensure.mjs';

const read = (path: string) => readFileSync(join(root, path), 'utf8');
const developers = read('DEVELOPERS.md');
const readme = read('README.md');

/** Without fences: what stands in them is held by other tests. */
const prose = (page: string) => page.replace(/^```[\s\S]*?^```$/gm, '');
const quoted = (page: string) => [...prose(page).matchAll(/`([^`\n]+)`/g)].map(([, it = '']) => it);

/** Of the project, without what is installed or built. */
const ROOMS = ['src', 'tests', 'scripts', 'public'];
const files = ROOMS.flatMap((room) =>
  readdirSync(join(root, room), { recursive: true, encoding: 'utf8' }).map((it) => `${room}/${it}`),
);
const code = files.filter((it) => /^src\/.*\.tsx?$/.test(it)).map(read);

const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };

const section = (heading: string) =>
  developers.split(`\n## ${heading}\n`)[1]?.split(/\n## /)[0] ?? '';

describe.each([
  ['DEVELOPERS.md', developers],
  ['README.md', readme],
])('%s', (_, page) => {
  it('names files that are there', () => {
    const named = quoted(page).filter((it) => /^[\w./]+\.(tsx?|mjs|css|html|json)$/.test(it));
    // What the build makes, or the host serves.
    const made = ['sw.js', 'manifest.webmanifest'];
    const missing = named.filter(
      (it) =>
        !made.includes(it) &&
        !existsSync(join(root, it)) &&
        !files.some((file) => file.endsWith(`/${it}`)),
    );
    expect(missing).toEqual([]);
  });

  it('names commands that are there', () => {
    const named = [...page.matchAll(/npm run ([a-z]+)/g)].map(([, it = '']) => it);
    expect(named.filter((it) => scripts[it] === undefined)).toEqual([]);
  });

  it('shows pictures that are there, and links to headings that are there', () => {
    const links = [...page.matchAll(/\]\(([^)]+)\)/g)].map(([, it = '']) => it);
    const anchors = [...page.matchAll(/^##+ (.+)$/gm)].map(
      ([, it = '']) =>
        `#${it
          .toLowerCase()
          .replaceAll(/[^\w -]/g, '')
          .replaceAll(' ', '-')}`,
    );
    const missing = links.filter((it) =>
      it.startsWith('#') ? !anchors.includes(it) : !existsSync(join(root, it)),
    );
    expect(missing).toEqual([]);
  });
});

describe('the ways of the data', () => {
  it('go by functions and components that are there', () => {
    const named = quoted(section('The ways of the data')).filter((it) =>
      /^[a-z]\w+$|^[A-Z]\w+$/.test(it),
    );
    expect(named.length).toBeGreaterThan(30);
    const missing = named.filter(
      (it) => !code.some((text) => new RegExp(`\\b${it}\\b`).test(text)),
    );
    expect(missing).toEqual([]);
  });
});
