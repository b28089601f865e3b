// `npm run shots -- <folder>`: pictures of every step of shot-steps.mjs, at three sizes, light and
// dark, named <step>-<size>-<scheme>.png. Builds first.
//   npm run shots -- --install    makes the pictures of the install dialogue (public/screenshots)
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { chromium } from 'playwright-core';
import { findChromium, root, runTool, wanted } from './ensure.mjs';
import { serveFolder } from './serve.mjs';
import { steps } from './shot-steps.mjs';

/** @typedef {{ name: string, width: number, height: number }} Size */

const sizes = [
  { name: 'landscape', width: 1180, height: 820 },
  { name: 'portrait', width: 820, height: 1180 },
  { name: 'phone', width: 390, height: 844 },
];
const installFiles = { landscape: 'wide.png', phone: 'narrow.png' };
const schemes = /** @type {const} */ (['light', 'dark']);

const executablePath = wanted(findChromium(), 'chromium');
const target = process.argv[2];
if (target === undefined) throw new Error('got no folder, wanted: npm run shots -- <folder>');
if ((await runTool('vite/bin/vite.js', ['build', '--logLevel', 'warn'])) !== 0) process.exit(1);

const server = await serveFolder({ dir: join(root, 'dist') });
try {
  if (target === '--install') await takeInstallPictures();
  else await takeAll(resolve(target));
} finally {
  await server.stop();
}

/** @param {string} folder */
async function takeAll(folder) {
  mkdirSync(folder, { recursive: true });
  for (const size of sizes) {
    for (const scheme of schemes) {
      await walk(size, scheme, (step) => join(folder, `${step.name}-${size.name}-${scheme}.png`));
    }
  }
  console.log(`${steps.length * sizes.length * schemes.length} pictures in ${folder}`);
}

async function takeInstallPictures() {
  const folder = join(root, 'public', 'screenshots');
  mkdirSync(folder, { recursive: true });
  for (const [name, file] of Object.entries(installFiles)) {
    const size = sizes.find((one) => one.name === name);
    if (size === undefined) throw new Error(`got no size named ${name}`);
    await walk(size, 'light', (step) => (step.showsApp ? join(folder, file) : undefined));
  }
  console.log(`Pictures of the install dialogue are in ${folder}`);
}

/**
 * Goes through all steps in a browser without any data, at one size and scheme, and takes a picture
 * after each step that has a file.
 *
 * @param {Size} size
 * @param {'light' | 'dark'} scheme
 * @param {(step: import('./shot-steps.mjs').Step) => string | undefined} fileFor
 */
async function walk({ width, height }, scheme, fileFor) {
  const profile = mkdtempSync(join(tmpdir(), 'fellmark-shots-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
    viewport: { width, height },
    colorScheme: scheme,
    hasTouch: true,
    reducedMotion: 'reduce',
  });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    page.on('pageerror', (error) => console.error(`error in the page: ${error.message}`));
    for (const step of steps) {
      await step.go(page, server.url);
      await page.waitForTimeout(300);
      const path = fileFor(step);
      if (path !== undefined) await page.screenshot({ path });
    }
  } finally {
    await context.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  }
}
