// `npm run bench`: measures the built app and the core beside their floors and prints one table.
//   npm run bench                     everything, as a table of ratios in Markdown
//   npm run bench -- --json           the same with every sample, in its own unit, as JSON
//   npm run bench -- --readme         the table also into README.md, between its marks
//   npm run bench -- core size        only these
// Ends with 1 where something could not be measured. Ratios are taken side by side in one run, so
// that they can be checked on any machine.
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { ensureDependencies, findChromium, root, wanted } from './ensure.mjs';

const args = process.argv.slice(2);
const isJson = args.includes('--json');
const isForReadme = args.includes('--readme');
const only = args.filter((arg) => !arg.startsWith('--'));
if (isForReadme && only.length > 0) throw new Error('--readme wants the whole table');

await ensureDependencies();
wanted(findChromium(), 'chromium');
// Only now: on a bare clone vite was not there before. It reads our TypeScript, which Node 20 cannot.
const { runnerImport } = await import('vite');
const folder = join(root, 'tests', 'bench');
const config = /** @type {const} */ ({ root, configFile: false, logLevel: 'warn' });
/** @type {{ module: typeof import('../tests/bench/bench.ts') }} */
const { module: bench } = await runnerImport(join(folder, 'bench.ts'), config);
/** @type {{ module: typeof import('../tests/bench/table.ts') }} */
const { module: table } = await runnerImport(join(folder, 'table.ts'), config);
const unknown = only.filter((name) => !bench.benchNames.includes(name));
if (unknown.length > 0)
  throw new Error(`got ${unknown.join(', ')}, wanted some of ${bench.benchNames.join(', ')}`);

const before = loadavg()[0] ?? 0;
const startedAt = Date.now();
const results = await bench.runBenches(only, (what) => {
  console.error(`… ${((Date.now() - startedAt) / 1000).toFixed(0)} s: ${what}`);
});
const about = {
  date: new Date().toISOString().slice(0, 10),
  cpu: cpus()[0]?.model ?? 'unknown',
  cores: cpus().length,
  node: process.version,
  // What else the machine was doing: above the number of cores before, the p95s say little.
  load: [before, loadavg()[0] ?? 0].map((load) => load.toFixed(1)).join(' before, '),
};
const words = `Measured on ${about.date}: ${about.cores} cores, Node ${about.node}, load ${about.load} after.`;
if (isJson) console.log(JSON.stringify({ about, ...results }, null, 2));
else console.log(`\n${table.tableOf(results)}\n\n${words}`);
if (isForReadme) {
  const readme = join(root, 'README.md');
  const inside = `${words}\n\n${table.tableOf(results)}`;
  writeFileSync(readme, table.betweenMarks(readFileSync(readme, 'utf8'), inside));
}
if (results.failures.length > 0) process.exitCode = 1;
