// `node scripts/weavers.mjs [weavers] [word]`: simulated weavers of many kinds, and how often the 90 %
// intervals of the beat held the truth. Some minutes for 2,000 of each kind.
import { join } from 'node:path';
import { runnerImport } from 'vite';
import { root } from './ensure.mjs';

const weavers = Number(process.argv[2] ?? 500);
const word = process.argv[3] ?? '';

const config = /** @type {const} */ ({ root, configFile: false, logLevel: 'warn' });
const file = join(root, 'tests', 'core', 'bench', 'beat', 'trials.ts');
/** @type {{ module: typeof import('../tests/core/bench/beat/trials.ts') }} */
const { module: trials } = await runnerImport(file, config);

const percent = (/** @type {readonly number[]} */ shares) =>
  shares.map((it) => (100 * it).toFixed(1)).join(' / ');

console.log(`Held at a quarter / half / three quarters of the piece, % of ${weavers} weavers.\n`);
console.log('| weavers | at the fell | final | woven before | error at half, mm | jumps said |');
console.log('|---|---|---|---|---|---|');
for (const { name, weaver, length } of trials.SETTINGS) {
  if (!name.includes(word)) continue;
  const all = trials.trialsOf(weaver, weavers, length);
  const { forecast, plan } = trials.halfwayErrors(all);
  const { jumped, found, calm, alarms } = trials.jumpsIn(all);
  const cells = [
    name,
    percent(trials.coverageOf(all, 'fell')),
    percent(trials.coverageOf(all, 'final')),
    percent(trials.coverageOf(all, 'woven')),
    `${forecast.toFixed(1)} (plan ${plan.toFixed(1)})`,
    `${found} of ${jumped}; ${alarms} in ${calm} without`,
  ];
  console.log(`| ${cells.join(' | ')} |`);
}
