// The built app in one browser for all tests of a file, for those that are about its screens.
import type { Page } from 'playwright-core';
import { type ChromiumHandle, type ChromiumOptions, openChromium, serveDist } from './harness.ts';

export interface App {
  readonly url: string;
  readonly browser: ChromiumHandle;
  readonly page: Page;
  /** Closes the browser and stops the server. */
  readonly close: () => Promise<void>;
}

/** A browser starts with a third less work, and passes no picture from one process to another. */
const WITHOUT_A_PROCESS_TO_DRAW = '--in-process-gpu';

/**
 * Opens it at Warps, in a profile that holds nothing. Without its service worker, which fetches the
 * whole app beside what is tested: what is about being offline opens the app by `firstVisit`.
 */
export async function openApp(options: ChromiumOptions = {}): Promise<App> {
  const server = await serveDist();
  const args = [WITHOUT_A_PROCESS_TO_DRAW, ...(options.args ?? [])];
  const browser = await openChromium({ serviceWorkers: 'block', ...options, args });
  const close = async () => {
    await browser.close();
    await server.stop();
  };
  const { page } = browser;
  await visit(page, server.url);
  return { url: server.url, browser, page, close };
}

/** Goes to the app and waits for its first screen. */
export async function visit(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await page.getByRole('heading', { name: 'Fellmark', exact: true }).waitFor();
}
