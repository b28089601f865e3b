// What has to be there before the project can be built or tested. Node's own modules only: this
// file runs on a bare clone, before anything is installed.
import { spawn, spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));

const packages = [
  'chromium',
  'firefox-esr',
  'webkit2gtk-driver',
  'libwebkit2gtk-4.1-0',
  'xvfb',
  'poppler-utils',
];

/**
 * Runs a command in the project's folder, showing its output, and answers its exit code.
 * A command that cannot be started, or is ended by a signal, answers 1.
 *
 * @param {string} command
 * @param {readonly string[]} args
 * @param {{ limitMs?: number, env?: Record<string, string> }} [options]
 * @returns {Promise<number>}
 */
export function run(command, args, { limitMs, env = {} } = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: root,
      stdio: ['ignore', 'inherit', 'inherit'],
      shell: process.platform === 'win32' && !command.endsWith('.exe'),
      env: { ...process.env, ...env },
    });
    const timer = limitMs === undefined ? undefined : setTimeout(() => child.kill(), limitMs);
    child.on('error', (error) => {
      console.error(`could not start ${command}: ${error.message}`);
      clearTimeout(timer);
      resolve(1);
    });
    child.on('close', (code) => {
      clearTimeout(timer);
      resolve(code ?? 1);
    });
  });
}

/**
 * Runs the command line of an installed package with this very Node, so that no shell is needed.
 *
 * @param {string} file path inside node_modules
 * @param {readonly string[]} args
 * @param {{ limitMs?: number, env?: Record<string, string> }} [options]
 */
export function runTool(file, args, options) {
  return run(process.execPath, [join(root, 'node_modules', file), ...args], options);
}

/** Installs what the lockfile lists, unless exactly that is installed already. Throws if it fails. */
export async function ensureDependencies() {
  if (matchesLockfile()) return;
  console.log('Installing what the lockfile lists (npm ci) …');
  const args = ['ci', '--no-fund', '--no-audit'];
  const npm = process.env.npm_execpath;
  const code = npm?.endsWith('.js')
    ? await run(process.execPath, [npm, ...args])
    : await run('npm', args);
  if (code !== 0) throw new Error('npm ci failed: see above; it needs a network the first time');
}

/**
 * npm keeps its own note of what it installed. Comparing the two tells an old installation from a
 * current one whatever the clocks of the files say; times lie after a checkout or a copy.
 */
function matchesLockfile() {
  const note = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(note)) return false;
  const wanted = packagesIn(join(root, 'package-lock.json'));
  const installed = packagesIn(note);
  return Object.entries(wanted).every(
    ([path, entry]) =>
      path === '' || entry.optional === true || installed[path]?.version === entry.version,
  );
}

/**
 * @param {string} file
 * @returns {Record<string, { version?: string, optional?: boolean }>}
 */
function packagesIn(file) {
  return JSON.parse(readFileSync(file, 'utf8')).packages ?? {};
}

/**
 * The full path of the first of these programs that is on the PATH.
 *
 * @param {readonly string[]} names
 * @returns {string | undefined}
 */
export function findProgram(names) {
  const folders = (process.env.PATH ?? '').split(delimiter);
  const candidates = names.flatMap((name) => folders.map((folder) => join(folder, name)));
  return candidates.find(isExecutable);
}

/** @param {string} path */
function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

export const findChromium = () => findProgram(['chromium', 'chromium-browser', 'google-chrome']);

export const findFirefox = () => findProgram(['firefox-esr', 'firefox']);

/** Turns the pages of a PDF into pictures. */
export const findPdfToPpm = () => findProgram(['pdftoppm']);

/** Tells the text of a PDF. */
export const findPdfToText = () => findProgram(['pdftotext']);

/** Tells the pages of a PDF and their size. */
export const findPdfInfo = () => findProgram(['pdfinfo']);

export const findWebKitDriver = () => findProgram(['WebKitWebDriver']);

/**
 * WebKit's plain browser, which Debian keeps outside the PATH.
 *
 * @returns {string | undefined}
 */
export function findMiniBrowser() {
  const list = spawnSync('dpkg', ['-L', 'libwebkit2gtk-4.1-0'], { encoding: 'utf8' });
  const found = (list.stdout ?? '').split('\n').find((line) => line.endsWith('/MiniBrowser'));
  return found ?? findProgram(['MiniBrowser']);
}

/** @returns {string[]} the names of what the browser tests want and this machine lacks */
export function missingBrowsers() {
  const found = {
    Chromium: findChromium(),
    Firefox: findFirefox(),
    WebKitWebDriver: findWebKitDriver(),
    MiniBrowser: findMiniBrowser(),
    Xvfb: findProgram(['Xvfb']),
    pdftoppm: findPdfToPpm(),
    pdftotext: findPdfToText(),
    pdfinfo: findPdfInfo(),
  };
  return Object.entries(found).flatMap(([name, path]) => (path === undefined ? [name] : []));
}

/**
 * Installs the browsers of the browser tests from Debian's packages when they are missing and we
 * may. Answers what is still missing; a test tool's own browser is never downloaded.
 *
 * @returns {Promise<string[]>}
 */
export async function ensureBrowsers() {
  const missing = missingBrowsers();
  if (missing.length === 0) return [];
  if (process.getuid?.() === 0 && findProgram(['apt-get']) !== undefined) {
    console.log(`Installing from Debian's packages: ${packages.join(' ')} …`);
    const env = { DEBIAN_FRONTEND: 'noninteractive' };
    await run('apt-get', ['update', '-qq'], { env });
    const quiet = ['-qq', '-o', 'Dpkg::Use-Pty=0', '--no-install-recommends'];
    await run('apt-get', ['install', '-y', ...quiet, ...packages], { env });
  }
  const still = missingBrowsers();
  if (still.length > 0) console.error(adviceFor(still));
  return still;
}

/** @param {readonly string[]} missing */
function adviceFor(missing) {
  return `The browser tests need ${missing.join(', ')}. On Debian or Ubuntu, as root:
  apt-get update && apt-get install -y ${packages.join(' ')}
Elsewhere put chromium, firefox, WebKitWebDriver, MiniBrowser, Xvfb, pdftoppm, pdftotext and pdfinfo
on the PATH.`;
}

/**
 * The path, or an error that says which program this machine lacks.
 *
 * @param {string | undefined} path
 * @param {string} name
 * @returns {string}
 */
export function wanted(path, name) {
  if (path === undefined) throw new Error(`got no ${name} on this machine, wanted one`);
  return path;
}
