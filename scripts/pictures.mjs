// `npm run pictures`: the pictures of README.md and of the browser's install dialogue, taken from
// the built app into public/screens. Builds first.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, runTool } from './ensure.mjs';
import { serveFolder } from './serve.mjs';
import { noBounce, throwPicks } from './shot-steps.mjs';
import { sizes, walk } from './shot-walk.mjs';

/** @typedef {import('./shot-walk.mjs').Page} Page */
/** @typedef {import('./shot-walk.mjs').Step} Step */

/** How near to the original the packed pictures are, of 1. */
const QUALITY = 0.85;

/** @param {Page} page @param {string} name */
const tap = (page, name) => page.getByRole('button', { name, exact: true }).first().click();

/** @type {Step} */
const bench = {
  name: 'bench',
  go: async (page, url) => {
    await page.goto(url);
    await tap(page, 'Weave this');
    await page.getByRole('button', { name: 'Throw the pick' }).waitFor();
    await noBounce(page);
    await throwPicks(page, 4);
    await tap(page, 'Stitched');
    await throwPicks(page, 32);
  },
};

/** @type {readonly Step[]} */
const wide = [
  bench,
  {
    name: 'endings',
    go: async (page) => {
      await throwPicks(page, 150);
      await tap(page, 'Endings');
      await page.getByRole('heading', { name: 'Ways to end this piece' }).waitFor();
      await page.waitForTimeout(2000);
    },
  },
  {
    name: 'planner',
    go: async (page) => {
      await tap(page, 'Close');
      await page.getByRole('button', { name: 'Warps' }).first().click();
      await tap(page, 'Plan another');
      await page.locator('.part-tab', { hasText: 'Pieces' }).click();
      await page.waitForTimeout(1500);
    },
  },
  {
    name: 'warping',
    go: async (page) => {
      await tap(page, 'Put on the loom');
      const done = page.getByRole('button', { name: /^Done/ });
      for (let step = 0; step < 6; step++) await done.click();
      await page.waitForTimeout(1500);
    },
  },
];

/** @type {readonly Step[]} */
const narrow = [
  bench,
  {
    name: 'warps',
    go: async (page) => {
      await page.getByRole('button', { name: 'Warps' }).first().click();
      await tap(page, 'Skip');
      await tap(page, 'Not now');
      await page.evaluate(() => scrollTo(0, 0));
      await page.waitForTimeout(1500);
    },
  },
];

const folder = join(root, 'public', 'screens');
if ((await runTool('vite/bin/vite.js', ['build', '--logLevel', 'warn'])) !== 0) process.exit(1);
const server = await serveFolder({ dir: join(root, 'dist') });
try {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  await take(wide, sizes.landscape, 'wide');
  await take(narrow, sizes.phone, 'narrow');
  console.log(`Pictures are in ${folder}`);
} finally {
  await server.stop();
}

/** @param {readonly Step[]} steps @param {import('./shot-walk.mjs').Size} size @param {string} form */
async function take(steps, size, form) {
  await walk(server.url, steps, size, 'light', async (page, { name }) => {
    const png = await page.screenshot();
    writeFileSync(join(folder, `${form}-${name}.webp`), await packed(page, png.toString('base64')));
  });
}

/**
 * As WebP, by the browser itself, on a page without our policy.
 *
 * @param {Page} page
 * @param {string} png in base64
 */
async function packed(page, png) {
  const blank = await page.context().newPage();
  const url = await blank.evaluate(
    async ([data, quality]) => {
      const image = await createImageBitmap(
        await (await fetch(`data:image/png;base64,${data}`)).blob(),
      );
      const canvas = Object.assign(document.createElement('canvas'), {
        width: image.width,
        height: image.height,
      });
      canvas.getContext('2d')?.drawImage(image, 0, 0);
      return canvas.toDataURL('image/webp', quality);
    },
    /** @type {const} */ ([png, QUALITY]),
  );
  await blank.close();
  return Buffer.from(url.slice(url.indexOf(',') + 1), 'base64');
}
