/** Type errors of a copy of the project, asked again and again of one compiler. */
import { existsSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { API } from 'typescript/unstable/async';
import type { Tree } from './tree.ts';

export interface Change {
  readonly changed?: readonly string[];
  readonly created?: readonly string[];
  readonly deleted?: readonly string[];
}

export interface Compiler {
  /** Errors in these files, or in all of the app where none are named, after some have changed. */
  readonly errors: (change: Change, of?: readonly string[]) => Promise<readonly string[]>;
  readonly close: () => Promise<void>;
}

/** The app's own settings, and the tests that the examples write. */
const CONFIG = {
  extends: './tsconfig.json',
  compilerOptions: { types: ['vite/client', 'vite-plugin-pwa/client', 'node'] },
};

export async function openCompiler(tree: Tree, tests: readonly string[]): Promise<Compiler> {
  const config = join(tree.folder, 'tsconfig.examples.json');
  writeFileSync(config, JSON.stringify({ ...CONFIG, include: ['src', ...tests] }));
  const api = new API({ cwd: tree.folder });
  const paths = (names: readonly string[] = []) => names.map((it) => join(tree.folder, it));
  await api.updateSnapshot({ openProjects: [config] });
  return {
    errors: async ({ changed, created, deleted }, of) => {
      const fileChanges = {
        changed: paths(changed),
        created: paths(created),
        deleted: paths(deleted),
      };
      const snapshot = await api.updateSnapshot({ fileChanges });
      const program = snapshot.getProject(config)?.program;
      if (program === undefined) throw new Error(`got no program for ${config}`);
      // A file that is left out has no errors; what needs it has.
      const asked = of === undefined ? [undefined] : paths(of).filter((it) => existsSync(it));
      const found = await Promise.all(
        asked.map(async (file) => [
          ...(await program.getSyntacticDiagnostics(file)),
          ...(await program.getSemanticDiagnostics(file)),
        ]),
      );
      return found.flat().map((it) => `${relative(tree.folder, it.fileName ?? '')}: ${it.text}`);
    },
    close: () => api.close(),
  };
}
