/** Every file of the origin's private file system, byte for byte. */
import { base64Of } from './base64.ts';
import type { Source } from './collect.ts';
import { inTime } from './inTime.ts';
import { words } from './words.ts';

const READ_MS = 20_000;

export async function readFiles(): Promise<Source> {
  // Missing in older browsers and refused in private windows: then there are no files either.
  const root = await navigator.storage?.getDirectory?.().catch(() => undefined);
  const files: string[] = [];
  const troubles: string[] = [];
  if (root !== undefined) await readFolder(root, '', files, troubles);
  const found = files.length === 0 ? [] : [words.files(files.length)];
  return { parts: [`[\n${files.join(',\n')}]`], found, troubles };
}

async function readFolder(
  folder: FileSystemDirectoryHandle,
  path: string,
  files: string[],
  troubles: string[],
): Promise<void> {
  try {
    for await (const handle of folder.values()) {
      const place = `${path}${handle.name}`;
      if (handle.kind === 'directory') await readFolder(handle, `${place}/`, files, troubles);
      else await readFile(handle, place, files, troubles);
    }
  } catch (error) {
    troubles.push(`Folder ${path}: ${error}`);
  }
}

async function readFile(
  handle: FileSystemFileHandle,
  path: string,
  files: string[],
  troubles: string[],
): Promise<void> {
  try {
    const file = await inTime(handle.getFile(), READ_MS, path);
    const bytes = new Uint8Array(await inTime(file.arrayBuffer(), READ_MS, path));
    files.push(
      `{"path": ${JSON.stringify(path)}, "bytes": ${bytes.length}, "base64": "${base64Of(bytes)}"}`,
    );
  } catch (error) {
    troubles.push(`File ${path}: ${error}`);
    files.push(JSON.stringify({ path, error: String(error) }));
  }
}
