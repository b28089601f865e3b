/** Everything stored for this origin, as the parts of one JSON text; what cannot be read is told. */
import { readDatabases } from './databases.ts';
import { readFiles } from './files.ts';
import { textOf } from './textOf.ts';
import { words } from './words.ts';

export interface Collected {
  /** Joined, the text of the file. */
  readonly parts: string[];
  /** What there is, in words. */
  readonly found: readonly string[];
  /** What could not be read, in words. */
  readonly troubles: readonly string[];
}

/** What one source gives: the members of its object in the file. */
export interface Source {
  readonly parts: readonly string[];
  readonly found: readonly string[];
  readonly troubles: readonly string[];
}

/** Never rejects: a source that fails as a whole is one trouble more. */
export async function collect(): Promise<Collected> {
  const databases = await safely('databases', readDatabases);
  const files = await safely('files', readFiles);
  const local = await safely('localStorage', readLocalStorage);
  const head = {
    format: 'fellmark-rescue',
    version: 1,
    madeAt: new Date().toISOString(),
    browser: navigator.userAgent,
  };
  const troubles = [databases, files, local].flatMap((it) => it.troubles);
  return {
    parts: [
      JSON.stringify(head).slice(0, -1),
      ',\n"databases": ',
      ...databases.parts,
      ',\n"files": ',
      ...files.parts,
      ',\n"localStorage": ',
      ...local.parts,
      ',\n"troubles": ',
      JSON.stringify(troubles),
      '}\n',
    ],
    found: [databases, files, local].flatMap((it) => it.found),
    troubles,
  };
}

async function safely(name: string, read: () => Promise<Source>): Promise<Source> {
  try {
    return await read();
  } catch (error) {
    return { parts: ['[]'], found: [], troubles: [`${name}: ${error}`] };
  }
}

async function readLocalStorage(): Promise<Source> {
  const names = Array.from({ length: localStorage.length }, (_, n) => localStorage.key(n) ?? '');
  const entries = names.map((name) => [name, localStorage.getItem(name)]);
  const found = names.length === 0 ? [] : [words.small(names.length)];
  return { parts: [await textOf(entries)], found, troubles: [] };
}
