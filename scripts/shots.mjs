// `npm run shots -- <folder>`: pictures of every step of shot-steps.mjs, at three sizes, light and
// dark, named <step>-<size>-<scheme>.png. Builds first.
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { root, runTool } from './ensure.mjs';
import { serveFolder } from './serve.mjs';
import { steps } from './shot-steps.mjs';
import { sizes, walk } from './shot-walk.mjs';

const schemes = /** @type {const} */ (['light', 'dark']);

const target = process.argv[2];
if (target === undefined) throw new Error('got no folder, wanted: npm run shots -- <folder>');
const folder = resolve(target);
if ((await runTool('vite/bin/vite.js', ['build', '--logLevel', 'warn'])) !== 0) process.exit(1);

const server = await serveFolder({ dir: join(root, 'dist') });
try {
  mkdirSync(folder, { recursive: true });
  for (const size of Object.values(sizes)) {
    for (const scheme of schemes) {
      await walk(server.url, steps, size, scheme, (page, step) =>
        page.screenshot({ path: join(folder, `${step.name}-${size.name}-${scheme}.png`) }),
      );
    }
  }
  console.log(`${steps.length * Object.keys(sizes).length * schemes.length} pictures in ${folder}`);
} finally {
  await server.stop();
}
