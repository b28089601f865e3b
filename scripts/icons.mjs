// `npm run icons`: draws the PNG icons from public/icon.svg, in Chromium. Run it when the icon changes.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { findChromium, root, wanted } from './ensure.mjs';

const folder = join(root, 'public');
// Where a system cuts the icon to a shape of its own, ours must reach into the corners.
const icons = [
  { file: 'icon-192.png', size: 192, corners: 'round' },
  { file: 'icon-512.png', size: 512, corners: 'round' },
  { file: 'icon-maskable-512.png', size: 512, corners: 'square' },
  { file: 'apple-touch-icon.png', size: 180, corners: 'square' },
];

const executablePath = wanted(findChromium(), 'chromium');
const svg = readFileSync(join(folder, 'icon.svg'), 'utf8');
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
for (const { file, size, corners } of icons) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const drawn = corners === 'square' ? svg.replace(/ rx="104"/, '') : svg;
  await page.setContent(`<style>body{margin:0}svg{display:block}</style>${drawn}`);
  await page.screenshot({ path: join(folder, file), omitBackground: corners === 'round' });
  await page.close();
}
await browser.close();
