// Words and their catalogues, for the build, the tests and `npm run words`. A message is the first
// argument of `t` or `tParts`; a catalogue is a folder of JSON files, English to the other language.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { compileMessage } from '@lingui/message-utils/compileMessage';
import MagicString from 'magic-string';
import { parseSync } from 'vite';
import { root } from './ensure.mjs';

const folder = join(root, 'src', 'catalogues');

/** Languages with a catalogue; English is in the code. */
export const languages = readdirSync(folder).sort();

/**
 * @param {string} language
 * @returns {Record<string, string>} English to the other language; what is not translated is empty.
 */
export function catalogueOf(language) {
  const files = readdirSync(join(folder, language)).filter((name) => name.endsWith('.json'));
  /** @type {Record<string, string>} */
  const all = {};
  for (const file of files.sort())
    Object.assign(all, JSON.parse(readFileSync(join(folder, language, file), 'utf8')));
  return all;
}

/** @param {string} message */
const isPlain = (message) => !/[{}']/.test(message) && !message.startsWith('[');

/**
 * What the built code carries: plain words as they are, others compiled, as JSON.
 *
 * @param {string} message
 */
export const compiled = (message) =>
  isPlain(message) ? message : JSON.stringify(compileMessage(message));

/**
 * Every message of a module and where it stands.
 *
 * @param {string} file its name tells whether it is TypeScript, with elements or not
 * @param {string} code
 * @returns {{ message: string, start: number, end: number }[]}
 */
export function messagesIn(file, code) {
  if (!/\bt(Parts)?\(/.test(code)) return [];
  const { program, errors } = parseSync(file, code);
  if (errors.length > 0) throw new Error(`${file}: ${errors[0]?.message}`);
  /** @type {{ message: string, start: number, end: number }[]} */
  const found = [];
  walk(program, (node) => {
    if (node.type !== 'CallExpression' || !/^t(Parts)?$/.test(node.callee.name ?? '')) return;
    const [it] = node.arguments;
    const message = literal(it);
    if (message === null)
      throw new Error(`${file}: got t(${code.slice(it.start, it.end)}), wanted a literal`);
    found.push({ message, start: it.start, end: it.end });
  });
  return found;
}

/** @typedef {Readonly<Record<string, unknown>> & { type: string, start: number, end: number }} Node */

/** @param {any} node */
function literal(node) {
  if (node.type === 'Literal' && typeof node.value === 'string') return node.value;
  if (node.type === 'TemplateLiteral' && node.expressions.length === 0)
    return node.quasis[0].value.cooked;
  return null;
}

/**
 * @param {any} node
 * @param {(node: any) => void} visit
 */
export function walk(node, visit) {
  visit(node);
  for (const value of Object.values(node))
    for (const child of [value].flat()) if (typeof child?.type === 'string') walk(child, visit);
}

/** Looks like words for a reader: two letters in a row that begin with a capital or stand beside a space. */
const isWordy = (/** @type {string} */ text) =>
  !/^[.#]?[A-Za-z][a-z]*([A-Z][a-z]*)+$/.test(text) &&
  /^[A-Z][a-z]+[ .,:…?!’]*$|[a-z]{2}/.test(text) &&
  /[A-Z][a-z]| [a-z]|[a-z] /.test(text);

/** Where text is none of the reader's business: errors for who mends the code, styles, pictures' paths. */
const MUTE_CALLS =
  /^(Error|RangeError|TypeError|StoreError|t|tParts|querySelector|querySelectorAll|getContext|matchMedia|setAttribute|removeProperty|setProperty|closest|import)$/;
const MUTE_ATTRIBUTES =
  /^(class|style|d|viewBox|transform|points|path|autocomplete|rel|sizes|accept|key|href|fill|stroke|id|media|name|type|kind)$/;

/**
 * Text in a module that a reader would see and that does not go through `t`. A guess: what is not
 * for a reader is marked with a comment `not for a reader` on its line or the line before.
 *
 * @param {string} file
 * @param {string} code
 * @returns {{ line: number, words: string }[]}
 */
export function bareWordsIn(file, code) {
  const { program } = parseSync(file, code);
  const lines = code.split('\n');
  /** @type {{ line: number, words: string }[]} */
  const found = [];
  const look = (/** @type {any} */ node) => {
    if (
      node.type.startsWith('TS') ||
      node.type.startsWith('Import') ||
      (node.type === 'ExportNamedDeclaration' && node.source !== null && node.source !== undefined)
    )
      return;
    if (node.type === 'CallExpression' || node.type === 'NewExpression') {
      const name = node.callee.name ?? node.callee.property?.name ?? '';
      if (MUTE_CALLS.test(name)) return void node.arguments.slice(1).forEach(look);
    }
    if (node.type === 'JSXAttribute' && MUTE_ATTRIBUTES.test(node.name.name)) return;
    const text = textOf(node);
    if (text !== null && isWordy(text)) {
      const line = code.slice(0, node.start).split('\n').length;
      const near = `${lines[line - 2] ?? ''}\n${lines[line - 1] ?? ''}`;
      if (!near.includes('not for a reader'))
        found.push({ line, words: text.trim().replace(/\s+/g, ' ') });
    }
    for (const value of Object.values(node))
      for (const child of [value].flat()) if (typeof child?.type === 'string') look(child);
  };
  look(program);
  return found;
}

/** @param {any} node */
function textOf(node) {
  if (node.type === 'JSXText') return node.value;
  if (node.type === 'TemplateElement') return node.value.cooked;
  return node.type === 'Literal' && typeof node.value === 'string' ? node.value : null;
}

/** Stands for an `await` at the top of a module until all modules are joined. */
const AWAITED = 'fellmark_awaited';

/**
 * Joined with what imports it, a module that waits stays one that is waited for. But the bundler, when it
 * sees one, leaves every file fetched later as it was cut: a hundred and forty crumbs instead of thirty.
 *
 * @param {MagicString} text
 * @param {any} program
 */
function hideAwait(text, program) {
  const hide = (/** @type {any} */ node) => {
    if (/Function/.test(node.type)) return;
    if (node.type === 'AwaitExpression') {
      text.update(node.start, node.argument.start, `${AWAITED}(`);
      text.appendLeft(node.end, ')');
    }
    for (const value of Object.values(node))
      for (const child of [value].flat()) if (typeof child?.type === 'string') hide(child);
  };
  hide(program);
}

const VIRTUAL = '\0fellmark:catalogues';

/**
 * The module that finds catalogues. The built code carries messages compiled, as JSON.
 *
 * @param {boolean} isBuild
 */
function entry(isBuild) {
  const each = languages.map((it) => `${it}: () => import('fellmark:catalogues/${it}')`);
  const reader = isBuild
    ? 'const read = new Map(); export const readMessage = (words) => { let it = read.get(words); if (!it) read.set(words, it = words[0] === "[" ? JSON.parse(words) : [words]); return it; };'
    : "export { compileMessage as readMessage } from '@lingui/message-utils/compileMessage';";
  return `const all = { ${each.join(', ')} };
export const loadCatalogue = async (language) => (await all[language]()).default;
${reader}`;
}

/**
 * Gives the app its catalogues, and compiles the messages in its code when it is built.
 *
 * @param {(message: string) => string} keyOf the key of an English message
 * @returns {import('vite').Plugin}
 */
export function catalogues(keyOf) {
  let isBuild = false;
  /** @param {string} message */
  const carried = (message) => (isBuild ? compiled(message) : message);
  return {
    name: 'catalogues',
    enforce: 'post',
    configResolved: ({ command }) => {
      isBuild = command === 'build';
    },
    resolveId: (id) => (`\0${id}`.startsWith(VIRTUAL) ? `\0${id}` : null),
    load(id) {
      if (!id.startsWith(VIRTUAL)) return null;
      const [, language] = id.split('/');
      if (language === undefined) return entry(isBuild);
      const words = Object.entries(catalogueOf(language)).filter(([, other]) => other !== '');
      const keyed = words.map(([english, other]) => [keyOf(carried(english)), carried(other)]);
      return `export default ${JSON.stringify(Object.fromEntries(keyed))}`;
    },
    transform(code, id) {
      if (!isBuild || !/\/src\/ui\/.*\.tsx?$/.test(id)) return null;
      const messages = messagesIn(`${id}.js`, code).filter(({ message }) => !isPlain(message));
      const waits = id.endsWith('/language/t.ts');
      if (messages.length === 0 && !waits) return null;
      const text = new MagicString(code);
      if (waits) hideAwait(text, parseSync(`${id}.js`, code).program);
      for (const { message, start, end } of messages)
        text.update(start, end, JSON.stringify(compiled(message)));
      return { code: text.toString(), map: text.generateMap({ hires: true }) };
    },
    renderChunk(code) {
      const at = code.indexOf(`${AWAITED}(`);
      if (at < 0) return null;
      const text = new MagicString(code);
      text.update(at, at + AWAITED.length, 'await ');
      return { code: text.toString(), map: text.generateMap({ hires: true }) };
    },
    generateBundle(_, files) {
      for (const file of Object.values(files))
        if (file.type === 'chunk' && file.code.includes(AWAITED))
          throw new Error(`${file.fileName}: got a hidden await, wanted one`);
    },
  };
}
