/** A copy of the project in a temporary folder, to be changed and put back. */
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { root } from '../../scripts/ensure.mjs';

/** What code, its types and its unit tests need. */
const PARTS = [
  'src',
  'scripts',
  'tests',
  'public',
  'package.json',
  'tsconfig.json',
  'vite.config.ts',
];
/** What a command may change besides the files it is told. */
const MADE = ['src/catalogues', 'public/plan.schema.json'];

const FEW_RUNS = "import fc from 'fast-check';\nfc.configureGlobal({ numRuns: 3 });\n";

export interface Tree {
  readonly folder: string;
  readonly read: (path: string) => string | null;
  /** Answers whether the file was there before. */
  readonly write: (path: string, text: string) => boolean;
  /** Everything as it was; answers what was put back and what was taken away. */
  readonly restore: () => {
    readonly changed: readonly string[];
    readonly deleted: readonly string[];
  };
  /** What work makes of a folder, made once for all that is alike. */
  readonly made: (like: string, path: string, work: () => Promise<unknown>) => Promise<void>;
  readonly remove: () => void;
}

export function copyOfProject(): Tree {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'fellmark-examples-')));
  for (const part of PARTS) cpSync(join(root, part), join(folder, part), { recursive: true });
  symlinkSync(realpathSync(join(root, 'node_modules')), join(folder, 'node_modules'));
  // Laws are held elsewhere; here a few of their cases do.
  writeFileSync(join(folder, 'tests/seed.ts'), FEW_RUNS);
  const written = new Set<string>();
  const known = new Map<string, string>();
  return {
    folder,
    read: (path) => textOf(join(folder, path)),
    write: (path, text) => {
      const file = join(folder, path);
      const isThere = existsSync(file);
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, text);
      written.add(path);
      return isThere;
    },
    restore: () => {
      const paths = [...written];
      written.clear();
      for (const path of [...paths, ...MADE]) {
        rmSync(join(folder, path), { recursive: true, force: true });
        if (existsSync(join(root, path)))
          cpSync(join(root, path), join(folder, path), { recursive: true });
      }
      const isOurs = (path: string) => existsSync(join(root, path));
      return { changed: paths.filter(isOurs), deleted: paths.filter((it) => !isOurs(it)) };
    },
    made: async (like, path, work) => {
      const kept = known.get(like);
      if (kept !== undefined) {
        cpSync(kept, join(folder, path), { recursive: true });
        return;
      }
      await work();
      const copy = join(folder, '.made', `${known.size}`);
      cpSync(join(folder, path), copy, { recursive: true });
      known.set(like, copy);
    },
    remove: () => rmSync(folder, { recursive: true, force: true, maxRetries: 10 }),
  };
}

function textOf(file: string): string | null {
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
}
