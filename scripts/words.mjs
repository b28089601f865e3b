// `npm run words` brings the catalogues up to date with the code: new messages come in without words,
// messages that are no longer said go. Prints what has no words yet, and what is said past `t`.
//   npm run words                  everything
//   npm run words -- src/ui/parts  prints only what lies there
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bareWordsIn, catalogueOf, languages, messagesIn } from './catalogues.mjs';
import { root } from './ensure.mjs';

const ui = join(root, 'src', 'ui');
const [only = ''] = process.argv.slice(2);

const files = readdirSync(ui, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name))
  .sort();
const read = (/** @type {string} */ name) => readFileSync(join(ui, name), 'utf8');

/** The file of the catalogue in which a module's words stand: a screen's, or the whole app's. @param {string} name */
const areaOf = (name) =>
  /^screens\/(\w+)\//.exec(name)?.[1] ?? /^(parts)\//.exec(name)?.[1] ?? 'app';

/** @type {Map<string, Set<string>>} */
const areas = new Map();
const seen = new Set();
for (const name of files) {
  for (const { message } of messagesIn(name, read(name))) {
    if (seen.has(message)) continue;
    seen.add(message);
    const area = areas.get(areaOf(name)) ?? new Set();
    areas.set(areaOf(name), area.add(message));
  }
}

for (const language of languages) {
  const known = catalogueOf(language);
  const folder = join(root, 'src', 'catalogues', language);
  rmSync(folder, { recursive: true });
  mkdirSync(folder);
  let missing = 0;
  for (const [area, messages] of areas) {
    const words = [...messages].map((message) => [message, known[message] ?? '']);
    missing += words.filter(([, other]) => other === '').length;
    const text = `${JSON.stringify(Object.fromEntries(words), null, 2)}\n`;
    writeFileSync(join(folder, `${area}.json`), text);
  }
  console.log(`${language}: ${missing} of ${seen.size} messages have no words`);
}

for (const name of files.filter((it) => `src/ui/${it}`.startsWith(only)))
  for (const { line, words } of bareWordsIn(name, read(name)))
    console.log(`src/ui/${name}:${line}: ${words}`);
