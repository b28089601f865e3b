// `npm test`: everything that has to hold, from a bare clone. Node's own modules only.
// Ends with one line, `N passed, N failed`: every test, and one for each other step.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBrowsers, ensureDependencies, root, runTool } from './ensure.mjs';

const results = join(root, '.test-results');
// A run that hangs must still end and say so.
const deadline = Date.now() + 80 * 60_000;

/** @typedef {{ passed: number, failed: number }} Count */

/**
 * @param {string} title
 * @param {string} tool
 * @param {readonly string[]} args
 */
async function start(title, tool, args) {
  console.log(`\n── ${title}`);
  return runTool(tool, args, { limitMs: Math.max(1000, deadline - Date.now()) });
}

/**
 * One step that passes or fails as a whole.
 *
 * @param {string} title
 * @param {string} tool
 * @param {readonly string[]} args
 * @returns {Promise<Count>}
 */
async function step(title, tool, args) {
  const code = await start(title, tool, args);
  if (code !== 0) console.error(`FAILED: ${title}`);
  return code === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

/**
 * One run of vitest, counted test by test. A test that did not run is not a pass.
 *
 * @param {string} name
 * @param {readonly string[]} args
 * @returns {Promise<Count>}
 */
async function tests(name, args) {
  const file = join(results, `${name}.json`);
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const code = await start(`${name} tests`, 'vitest/vitest.mjs', ['run', ...args, ...reporters]);
  const count = existsSync(file) ? countIn(file) : { passed: 0, failed: 0 };
  // A file that does not load, an error outside any test, no test at all: nothing counts it for us.
  const isUncounted = (code !== 0 || count.passed === 0) && count.failed === 0;
  if (isUncounted) console.error(`FAILED: ${name} tests ended with code ${code}`);
  return isUncounted ? { ...count, failed: 1 } : count;
}

/**
 * @param {string} file
 * @returns {Count}
 */
function countIn(file) {
  const report = JSON.parse(readFileSync(file, 'utf8'));
  const failed = report.numTotalTests - report.numPassedTests;
  return { passed: report.numPassedTests, failed };
}

// The store's own tests take every one of its branches: what none of them meets is not known to hold.
const counted = [
  '--coverage',
  '--coverage.include=src/store/**',
  '--coverage.reporter=text',
  '--coverage.skipFull',
  '--coverage.thresholds.branches=100',
];
/** @param {string} room */
const elsewhere = (room) => ['--exclude', `tests/${room}/**`];
// Each of these runs tests of the others on wrong code, one after the other.
const wrong = 'tests/protections/';

const tsc = 'typescript/bin/tsc';
const built = ['--config', 'vitest.browser.config.ts'];
// Fifteen damaged profiles take minutes of launches: `npm run torture` has them.
const apart = ['--exclude', 'tests/browser/durable/copies.test.ts'];

/** Each of them leaves a core idle, and no one needs what another leaves behind. */
const AT_A_TIME = 2;

/**
 * Whoever is done takes the next, so that all end together.
 *
 * @param {readonly (() => Promise<Count[]>)[]} steps
 * @returns {Promise<Count[]>}
 */
async function sideBySide(steps) {
  const waiting = steps.values();
  /** @type {Count[]} */
  const counts = [];
  const takeOne = async () => {
    for (const step of waiting) counts.push(...(await step()));
  };
  await Promise.all(Array.from({ length: AT_A_TIME }, takeOne));
  return counts;
}

/**
 * The longest first, so that what is short is left to make up for it at the end.
 *
 * @type {readonly (() => Promise<Count[]>)[]}
 */
const beforeTheBrowser = [
  // Pure functions have nothing to keep apart, and are read in once instead of once a file.
  async () => [await tests('core', ['tests/core/', '--no-isolate'])],
  async () => [await tests('unit', ['core', 'store', 'protections'].flatMap(elsewhere))],
  async () => [await tests('store', ['tests/store/', ...counted])],
  async () => [await tests('protections', [wrong])],
  async () => [
    await step('build', 'vite/bin/vite.js', ['build']),
    await tests('size', [...built, 'tests/size.test.ts']),
  ],
  async () => [await step('types of the tests and scripts', tsc, ['-p', 'tests/tsconfig.json'])],
  async () => [await step('style', '@biomejs/biome/bin/biome', ['check', '.'])],
  async () => [await step('types of the app', tsc, ['-p', 'tsconfig.json'])],
  async () => [
    await step('types of the core, without the DOM', tsc, ['-p', 'src/core/tsconfig.json']),
  ],
];

/** @returns {Promise<Count[]>} */
async function everything() {
  await ensureDependencies();
  const missing = await ensureBrowsers();
  rmSync(results, { recursive: true, force: true });
  mkdirSync(results, { recursive: true });
  const counts = await sideBySide(beforeTheBrowser);
  if (missing.length === 0)
    counts.push(await tests('browser', [...built, 'tests/browser/', ...apart]));
  else counts.push(notRun(missing));
  return counts;
}

/**
 * @param {readonly string[]} missing
 * @returns {Count}
 */
function notRun(missing) {
  console.error(`FAILED: browser tests, for want of ${missing.join(', ')}`);
  return { passed: 0, failed: 1 };
}

/** @type {readonly Count[]} */
const counts = await everything().catch((error) => {
  console.error(error instanceof Error ? error.message : error);
  return [{ passed: 0, failed: 1 }];
});
const passed = counts.reduce((sum, count) => sum + count.passed, 0);
const failed = counts.reduce((sum, count) => sum + count.failed, 0);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
