// `npm run bench`: measures the built app and the core beside their floors and prints one table.
//   npm run bench                     everything, as a table in Markdown
//   npm run bench -- --json           the same with every sample, as JSON
//   npm run bench -- core size        only these
// Figures in milliseconds belong to one machine; the ratios are what can be checked anywhere.
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { ensureDependencies, findChromium, root, wanted } from './ensure.mjs';

const args = process.argv.slice(2);
const isJson = args.includes('--json');
const only = args.filter((arg) => !arg.startsWith('--'));

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
const rows = await bench.runBenches(only, (what) => console.error(`… ${what}`));
const about = {
  date: new Date().toISOString().slice(0, 10),
  cpu: cpus()[0]?.model ?? 'unknown',
  cores: cpus().length,
  node: process.version,
  // What else the machine was doing: above the number of cores before, the p95s say little.
  load: [before, loadavg()[0] ?? 0].map((load) => load.toFixed(1)).join(' before, '),
};
if (isJson) console.log(JSON.stringify({ about, rows }, null, 2));
else {
  console.log(`\n${table.tableOf(rows)}\n`);
  console.log(
    `${about.date}, ${about.cores} cores of ${about.cpu}, Node ${about.node}, load ${about.load} after.`,
  );
}
