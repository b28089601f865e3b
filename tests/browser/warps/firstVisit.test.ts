import type { Page } from 'playwright-core';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { visit } from '../app.ts';
import { button, chooseFile, weaveDemo } from '../bench.ts';
import { demoText } from '../expected.ts';
import { findingsOn } from '../findings.ts';
import { openVisitor, serveDist, type Visitor } from '../harness.ts';

let server: Awaited<ReturnType<typeof serveDist>>;
let browser: Visitor;
let page: Page;

beforeAll(async () => {
  server = await serveDist();
  browser = await openVisitor({ serviceWorkers: 'block' });
  return async () => {
    await browser.close();
    await server.stop();
  };
});

afterEach(async () => {
  const session = await browser.context.newCDPSession(page);
  await page.goto('about:blank');
  const origin = new URL(server.url).origin;
  await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' });
  await page.close();
});

/** Opens the app as if for the first time; `before` runs in the page ahead of every script of it. */
async function open(before: string | null = null): Promise<void> {
  page = await browser.context.newPage();
  if (before !== null) await page.addInitScript(before);
  await visit(page, server.url);
}

const walk = () => page.getByRole('region', { name: 'How it works' });
const offer = () => page.getByRole('region', { name: 'Put the app on your home screen' });

/** What the browser does when it could install; a machine without a screen never gets that far. */
const asks = `
  const asked = new Event('beforeinstallprompt', { cancelable: true });
  asked.prompt = async () => { window.wasAsked = true; return { outcome: 'accepted' }; };
  dispatchEvent(asked);
  window.isKeptBack = asked.defaultPrevented;`;

describe('the walk of a first visit', () => {
  it('shows four steps, forward and back, and then stays away until it is asked for', async () => {
    await open();
    const titles: (string | null)[] = [];
    for (let at = 1; at <= 4; at++) {
      await walk().getByText(`${at} of 4`).waitFor();
      titles.push(await walk().locator('h2').textContent());
      if (at === 2) {
        await walk().getByRole('button', { name: 'Back' }).click();
        await walk().getByText('1 of 4').waitFor();
        await walk().getByRole('button', { name: 'Next' }).click();
        await walk().getByText('2 of 4').waitFor();
      }
      if (at < 4) await walk().getByRole('button', { name: 'Next' }).click();
    }
    expect(titles).toEqual(['Plan', 'Warp', 'Weave', 'Measure']);
    await walk().getByRole('button', { name: 'Begin' }).click();
    await walk().waitFor({ state: 'detached' });
    await page.reload();
    await button(page, 'How it works').click();
    await walk().waitFor();
  });

  it('is skipped in one tap, and demos can be woven beside it', async () => {
    await open();
    await walk().waitFor();
    await weaveDemo(page, 'moss-and-chalk');
    await page.goBack().catch(() => undefined);
    await page.goto(server.url);
    await button(page, '‹ Warps').click();
    await walk().getByRole('button', { name: 'Skip' }).click();
    await walk().waitFor({ state: 'detached' });
  });

  it('does not come where a plan of one’s own is kept', async () => {
    await open();
    await chooseFile(page, 'plan.json', demoText('ink-oat-ochre'));
    await page.locator('.notice').waitFor();
    await walk().waitFor({ state: 'detached' });
    expect(await offer().count()).toBe(0);
  });

  it('axe finds nothing on it and the offer to install', async () => {
    await open();
    await page.evaluate(asks);
    await offer().waitFor();
    expect(await findingsOn(page)).toEqual([]);
  });
});

describe('the offer to install', () => {
  it('the browser finds nothing that keeps the app from being installed', async () => {
    await open();
    const session = await page.context().newCDPSession(page);
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
    // A profile that is thrown away cannot install anything: that is not the app's doing.
    expect(installabilityErrors.map(({ errorId }) => errorId)).toEqual(
      installabilityErrors.some(({ errorId }) => errorId === 'in-incognito')
        ? ['in-incognito']
        : [],
    );
  });

  it('puts the browser’s own question at the tap, never by itself', async () => {
    await open();
    await page.evaluate(asks);
    await offer().waitFor();
    expect(await page.evaluate('[window.isKeptBack, window.wasAsked]')).toEqual([true, undefined]);
    await offer().getByRole('button', { name: 'Install' }).click();
    await offer().waitFor({ state: 'detached' });
    expect(await page.evaluate('window.wasAsked')).toBe(true);
  });

  it('once declined it is not made again, but under Keep safe', async () => {
    await open();
    await page.evaluate(asks);
    await offer().getByRole('button', { name: 'Not now' }).click();
    await offer().waitFor({ state: 'detached' });
    await page.reload();
    await walk().waitFor();
    await page.evaluate(asks);
    await button(page, 'Keep safe').click();
    await offer().getByRole('button', { name: 'Install' }).waitFor();
  });

  it('a tab of Safari on a tablet is told of the seven days, before the first plan', async () => {
    await open(`Object.defineProperties(navigator, {
      standalone: { value: false }, maxTouchPoints: { value: 5 } });
      const media = matchMedia.bind(window);
      window.matchMedia = (query) => query === '(pointer: coarse)' ? { matches: true } : media(query);`);
    await offer().getByText('seven days').waitFor();
    await offer().getByText('Add to Home Screen').waitFor();
    expect(await findingsOn(page)).toEqual([]);
  });

  it('on the home screen nothing is offered', async () => {
    await open('Object.defineProperty(navigator, "standalone", { value: true })');
    await walk().waitFor();
    await page.evaluate(asks);
    expect(await offer().count()).toBe(0);
  });
});

describe('room on the device', () => {
  it('little of it is said, with what to do', async () => {
    await open(
      'navigator.storage.estimate = async () => ({ quota: 100_000_000, usage: 88_000_000 })',
    );
    await page.getByText('This device has 12.0 MB left').waitFor();
  });
});
