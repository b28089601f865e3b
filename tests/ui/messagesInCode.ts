/** Every message the app says, and what is filled into one. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { compileMessage } from '@lingui/message-utils/compileMessage';
import { messagesIn } from '../../scripts/catalogues.mjs';
import { root } from '../../scripts/ensure.mjs';

const ui = join(root, 'src', 'ui');
export const messages = new Set(
  readdirSync(ui, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .flatMap((name) => messagesIn(name, readFileSync(join(ui, name), 'utf8')))
    .map(({ message }) => message),
);

/** Names of the placeholders, whatever is said of them. */
export function placeholders(message: string): ReadonlySet<string> {
  const names = new Set<string>();
  const look = (tokens: unknown): void => {
    if (!Array.isArray(tokens)) return;
    for (const token of tokens) {
      if (!Array.isArray(token)) continue;
      names.add(String(token[0]));
      for (const branch of Object.values(token[2] ?? {})) look(branch);
    }
  };
  look(compileMessage(message));
  return names;
}
