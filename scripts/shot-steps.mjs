// The screens of which `npm run shots` takes pictures, in order. Each step starts where the one
// before it ended, in the same page, with the same data.

/** @param {import('playwright-core').Page} page @param {number} picks */
export async function throwPicks(page, picks) {
  for (let i = 0; i < picks; i++) await page.keyboard.press('PageDown');
}

/** @param {import('playwright-core').Page} page */
export async function noBounce(page) {
  await page.getByRole('button', { name: 'More' }).click();
  await page.getByRole('button', { name: 'Settings' }).click();
  await page.getByRole('button', { name: 'at once' }).click();
  await page.getByRole('button', { name: 'Close' }).click();
}

/** @type {readonly import('./shot-walk.mjs').Step[]} */
export const steps = [
  {
    name: 'start',
    go: async (page, url) => {
      await page.goto(url);
      await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
    },
  },
  {
    name: 'first-pick',
    go: async (page) => {
      await page.getByRole('button', { name: 'Weave this' }).first().click();
      await page.getByRole('button', { name: 'Throw the pick' }).waitFor();
    },
  },
  {
    name: 'alternation',
    go: async (page) => {
      await noBounce(page);
      await throwPicks(page, 4);
      await page.getByRole('button', { name: 'Stitched' }).click();
      await throwPicks(page, 32);
    },
  },
  {
    name: 'more',
    go: (page) => page.getByRole('button', { name: 'More' }).click(),
  },
  {
    name: 'length',
    go: (page) => page.getByRole('button', { name: 'A length woven' }).click(),
  },
  {
    name: 'unsure',
    go: async (page) => {
      await page.getByRole('button', { name: '8', exact: true }).click();
      await page.getByRole('button', { name: 'Count this length' }).click();
    },
  },
  {
    name: 'place',
    go: (page) => page.getByRole('button', { name: 'Tell' }).click(),
  },
  {
    name: 'piece-end',
    go: async (page) => {
      await page.locator('.place').first().click();
      for (let i = 0; i < 300; i++) {
        await throwPicks(page, 1);
        if ((await page.locator('.weave-head h1').textContent())?.includes('2 of 2')) break;
      }
    },
  },
  {
    name: 'warps',
    go: async (page) => {
      await page.getByRole('button', { name: 'Warps' }).click();
      await page.locator('.warp-tile').first().waitFor();
    },
  },
  {
    name: 'second-demo',
    go: async (page) => {
      await page.getByRole('button', { name: 'Weave this' }).last().click();
      await page.getByRole('button', { name: 'Throw the pick' }).waitFor();
      await throwPicks(page, 160);
    },
  },
];
