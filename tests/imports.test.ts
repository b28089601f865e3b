import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { parseSync } from 'vite';
import { describe, expect, it } from 'vitest';
import { root } from '../scripts/ensure.mjs';

const src = join(root, 'src');

interface Import {
  /** Path from src, with forward slashes. */
  readonly from: string;
  /** Path from src when relative, else the specifier as written. */
  readonly to: string;
}

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && 'type' in value && typeof value.type === 'string';

/** Every node below and including this one, each with its parent and its place in it. */
function* nodesIn(
  node: Node,
  parent?: Node,
  key = '',
): Generator<[Node, Node | undefined, string]> {
  yield [node, parent, key];
  for (const [name, value] of Object.entries(node)) {
    for (const child of [value].flat()) if (isNode(child)) yield* nodesIn(child, node, name);
  }
}

function parse(file: string, code: string): Node {
  const { program, errors } = parseSync(file, code);
  if (errors.length > 0) throw new Error(`${file}: ${errors[0]?.message}`);
  if (!isNode(program)) throw new Error(`got no program for ${file}`);
  return program;
}

const importing = ['ImportDeclaration', 'ExportNamedDeclaration', 'ExportAllDeclaration'];

/** Every module a file names: imports, types too, re-exports, import(), and import types. */
function specifiersIn(file: string, code: string): readonly string[] {
  const nodes = [...nodesIn(parse(file, code))].map(([node]) => node);
  const sources = nodes.flatMap((node) => {
    if (importing.includes(node.type) || node.type === 'ImportExpression') return [node.source];
    return node.type === 'TSImportType' ? [node.source ?? node.argument] : [];
  });
  return sources.flatMap((source) =>
    isNode(source) && typeof source.value === 'string' ? [source.value] : [],
  );
}

const path = (absolute: string) => relative(src, absolute).split(sep).join('/');

function importsOf(file: string, code: string): readonly Import[] {
  const from = path(file);
  return specifiersIn(file, code).map((name) => ({
    from,
    to: name.startsWith('.') ? path(resolve(dirname(file), name.replace(/\?.*$/, ''))) : name,
  }));
}

const under = (folder: string) => (file: string) => file.startsWith(`${folder}/`);

/** What each folder may import; the first that fits decides. A missing folder may import anything. */
const rules: readonly { readonly folder: string; readonly may: readonly string[] }[] = [
  { folder: 'core/measure', may: ['core/measure/', 'valibot', 'culori/fn'] },
  { folder: 'core/plan', may: ['core/plan/', 'core/measure/', 'valibot'] },
  { folder: 'core/bench', may: ['core/bench/', 'core/plan/', 'core/measure/', 'valibot'] },
  {
    folder: 'core/learn',
    may: ['core/learn/', 'core/bench/', 'core/plan/', 'core/measure/', 'valibot'],
  },
  {
    folder: 'core/journal',
    may: ['core/journal/', 'core/bench/', 'core/plan/', 'core/measure/', 'valibot'],
  },
  {
    folder: 'core/planner',
    may: ['core/planner/', 'core/learn/', 'core/bench/', 'core/plan/', 'core/measure/'],
  },
  { folder: 'core/travel', may: ['core/travel/', 'core/plan/', 'core/measure/'] },
  {
    folder: 'core/paper',
    may: ['core/paper/', 'core/bench/', 'core/plan/', 'core/measure/'],
  },
  { folder: 'core', may: ['core/', 'valibot'] },
  { folder: 'store', may: ['store/', 'core/', 'idb'] },
];

function isAllowed({ from, to }: Import): boolean {
  if (under('ui')(from)) return !under('..')(to) && to !== 'main.tsx' && to !== 'idb';
  const rule = rules.find(({ folder }) => under(folder)(from));
  if (rule === undefined) return true;
  return rule.may.some((one) => (one.endsWith('/') ? to.startsWith(one) : to === one));
}

const forbiddenNames = [
  'document',
  'window',
  'navigator',
  'localStorage',
  'indexedDB',
  'globalThis',
];
const forbiddenCalls = ['Date.now', 'Math.random', 'performance.now', 'crypto.randomUUID'];

/** Uses of the page, the clock or chance, as `name@offset`. A property of that name is no use. */
function impuritiesIn(file: string, code: string): readonly string[] {
  const found = [...nodesIn(parse(file, code))].map(([node, parent, key]) => ({
    node,
    name: impurity(node, parent, key),
  }));
  return found.flatMap(({ node, name }) => (name === undefined ? [] : [`${name}@${node.start}`]));
}

function impurity(node: Node, parent: Node | undefined, key: string): string | undefined {
  if (node.type === 'NewExpression') return nameOf(node.callee) === 'Date' ? 'new Date' : undefined;
  if (node.type === 'CallExpression' && nameOf(node.callee) === 'Date') return 'Date()';
  if (node.type === 'MemberExpression') {
    const call = `${nameOf(node.object)}.${nameOf(node.property)}`;
    return forbiddenCalls.includes(call) ? call : undefined;
  }
  const name = nameOf(node);
  if (name === undefined || !forbiddenNames.includes(name)) return undefined;
  const isProperty = (key === 'property' || key === 'key') && parent?.computed !== true;
  return isProperty ? undefined : name;
}

function nameOf(node: unknown): string | undefined {
  if (!isNode(node) || node.type !== 'Identifier') return undefined;
  return typeof node.name === 'string' ? node.name : undefined;
}

const files = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.tsx?$/.test(file) && !file.endsWith('.d.ts'))
  .map((file) => join(src, file));
const imports = files.flatMap((file) => importsOf(file, readFileSync(file, 'utf8')));

describe('imports run one way', () => {
  it('store and screens import the core, the core imports neither; planner → learn → bench → plan → measure', () => {
    expect(imports.length).toBeGreaterThan(0);
    const wrong = imports.filter((one) => !isAllowed(one));
    expect(wrong.map(({ from, to }) => `${from} imports ${to}`)).toEqual([]);
  });

  it.each([
    ['core/measure/mass.ts', "import { a } from '../plan/plan.ts';"],
    ['core/plan/plan.ts', "import type { A } from '../bench/events.ts';"],
    ['core/plan/plan.ts', "export { a } from '../../store/store.ts';"],
    ['core/plan/plan.ts', "import type { A } from '../planner/sheet.ts';"],
    ['core/bench/fold.ts', "import { sheetOf } from '../planner/sheet.ts';"],
    ['core/bench/fold.ts', "const a = await import('preact');"],
    ['core/bench/fold.ts', "import { pooled } from '../learn/pooled.ts';"],
    ['core/learn/pooled.ts', "import { sheetOf } from '../planner/sheet.ts';"],
    ['core/journal/journal.ts', "import { sheetOf } from '../planner/sheet.ts';"],
    ['core/planner/reads.ts', "import { differenceCiede2000 } from 'culori/fn';"],
    ['core/planner/sheet.ts', "import { a } from '../../store/store.ts';"],
    ['core/bench/fold.ts', "type A = import('../../ui/state.ts').State;"],
    ['store/store.ts', "import '../ui/state.ts';"],
    ['store/store.ts', "import { signal } from '@preact/signals';"],
    ['ui/screens/weave/weave.tsx', "import { openDB } from 'idb';"],
    ['ui/actions.ts', "import '../main.tsx';"],
  ])('%s may not say %s', (file, code) => {
    expect(importsOf(join(src, file), code).map(isAllowed)).toEqual([false]);
  });

  it.each([
    ['core/bench/fold.ts', "import { a } from '../measure/mass.ts';"],
    ['core/plan/plan.ts', "import * as v from 'valibot';"],
    ['core/planner/sheet.ts', "import { layCourse } from '../bench/course.ts';"],
    ['core/learn/pooled.ts', "import type { LogEvent } from '../bench/events.ts';"],
    ['core/planner/wishesMet.ts', "import type { ClothReadings } from '../learn/readings.ts';"],
    ['core/planner/sheet/warp.ts', "import { a } from '../../measure/mass.ts';"],
    ['store/store.ts', "import type { A } from '../core/bench/events.ts';"],
    ['ui/screens/weave/weave.tsx', "import { a } from '../../../core/plan/plan.ts';"],
    ['ui/actions.ts', "import type { Store } from '../store/store.ts';"],
  ])('%s may say %s', (file, code) => {
    expect(importsOf(join(src, file), code).map(isAllowed)).toEqual([true]);
  });
});

/** Rooms as the picture in DEVELOPERS.md names them: of the core each folder, else the first. */
const roomOf = (file: string) => (under('core')(file) ? /^core\/[^/]+/ : /^[^/]+/).exec(file)?.[0];

/** Arrows `a --> b` between rooms, as `a b`. */
const arrowsBetween = (pairs: readonly Import[]): ReadonlySet<string> =>
  new Set(
    pairs
      .map(({ from, to }) => [roomOf(from), roomOf(to)])
      .filter(([from, to]) => from !== to)
      .map(([from, to]) => `${from} ${to}`),
  );

/** Every arrow, and every one that follows from others. */
function closed(arrows: ReadonlySet<string>): ReadonlySet<string> {
  const all = new Set(arrows);
  for (const one of all) {
    const [from, by] = one.split(' ');
    for (const other of all) {
      const [start, to] = other.split(' ');
      if (start === by) all.add(`${from} ${to}`);
    }
  }
  return all;
}

describe('the picture of the imports in DEVELOPERS.md', () => {
  const page = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
  const picture = /```mermaid\nflowchart TD\n([^`]*)```/.exec(page)?.[1] ?? '';
  const drawn = new Set(
    [...picture.matchAll(/^ {2}(\S+) --> (\S+)$/gm)].map(([, from, to]) => `${from} ${to}`),
  );
  const real = arrowsBetween(imports.filter(({ to }) => files.includes(join(src, to))));

  it('draws every room', () => {
    const rooms = new Set(files.map((file) => roomOf(path(file))));
    const words = new Set(picture.split(/\s+/).filter((word) => word !== '' && word !== '-->'));
    expect([...words].sort()).toEqual([...rooms].sort());
  });

  it('draws no arrow that is no import', () => {
    expect([...drawn].filter((arrow) => !real.has(arrow))).toEqual([]);
  });

  it('leaves out only arrows that follow from those it draws', () => {
    const followed = closed(drawn);
    expect([...real].filter((arrow) => !followed.has(arrow))).toEqual([]);
  });

  it('draws none that follows from others', () => {
    const needless = [...drawn].filter((arrow) => {
      const others = new Set([...drawn].filter((it) => it !== arrow));
      return closed(others).has(arrow);
    });
    expect(needless).toEqual([]);
  });
});

describe('the core asks neither page nor clock nor chance', () => {
  it('no file of the core uses them', () => {
    const core = files.filter((file) => under('core')(path(file)));
    expect(core.length).toBeGreaterThan(0);
    const found = core.flatMap((file) =>
      impuritiesIn(file, readFileSync(file, 'utf8')).map((use) => `${path(file)}: ${use}`),
    );
    expect(found).toEqual([]);
  });

  it.each([
    'document.title',
    'const w = window;',
    'navigator.onLine',
    "localStorage.getItem('a')",
    "indexedDB.open('a')",
    'const t = Date.now();',
    'const r = Math.random();',
    'const d = new Date();',
    'const d = new Date(2026, 1);',
  ])('%s would be found', (code) => {
    expect(impuritiesIn('a.ts', code)).toHaveLength(1);
  });

  it('a comment, a string, a property or Date.parse is no such use', () => {
    const code = "// document\nconst a = { window: 'Date.now()' }; a.window; Date.parse(a.window);";
    expect(impuritiesIn('a.ts', code)).toEqual([]);
  });
});
