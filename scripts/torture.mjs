// `npm run torture`: what `npm test` does in part, in full. 200 kills of a real Chromium, and every
// fault of the database at every operation with 100 courses of events each, in browsers as weavers
// have them, on a disk. Takes half an hour.
//   npm run torture                 everything
//   npm run torture -- kills 500    only the kills, so many
//   npm run torture -- faults 20    only the faults, so many courses each
import { ensureBrowsers, ensureDependencies, runTool } from './ensure.mjs';

const KILLS = 200;
const COURSES = 100;

const [only, times] = process.argv.slice(2);
if (only !== undefined && only !== 'kills' && only !== 'faults')
  throw new Error(`got ${only}, wanted kills or faults`);

/**
 * @param {string} name
 * @param {readonly string[]} args
 * @param {Readonly<Record<string, string>>} env
 */
async function run(name, args, env) {
  console.log(`\n── ${name}: ${JSON.stringify(env)}`);
  Object.assign(process.env, env);
  return runTool('vitest/vitest.mjs', ['run', ...args], { limitMs: 4 * 3_600_000 });
}

await ensureDependencies();
const missing = await ensureBrowsers();
if (missing.length > 0) throw new Error(`got no ${missing.join(', ')}`);
const codes = [];
if (only !== 'faults') {
  const built = [
    '--config',
    'vitest.browser.config.ts',
    'tests/browser/durable/kills.test.ts',
    'tests/browser/durable/copies.test.ts',
  ];
  codes.push(await runTool('vite/bin/vite.js', ['build'], {}));
  const env = { FELLMARK_KILLS: times ?? String(KILLS), FELLMARK_PLAIN: 'yes' };
  codes.push(await run('kills', built, env));
}
if (only !== 'kills') {
  const env = { FELLMARK_FAULT_SEEDS: times ?? String(COURSES) };
  codes.push(await run('faults', ['tests/store/faults.test.ts'], env));
}
const failed = codes.filter((code) => code !== 0).length;
console.log(failed === 0 ? '\nnothing was lost' : `\n${failed} of ${codes.length} runs failed`);
process.exitCode = failed === 0 ? 0 : 1;
