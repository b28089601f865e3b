// The built app in one browser for all tests of a file, for those that are about its screens.
import type { Page } from 'playwright-core';
import { openVisitor, serveDist, type Visitor, type VisitorOptions } from './harness.ts';

export interface App {
  readonly url: string;
  readonly browser: Visitor;
  readonly page: Page;
  /** Forgets all that was stored, and stops the server. */
  readonly close: () => Promise<void>;
}

/**
 * Opens it at Warps, where nothing is stored. Without its service worker, which fetches the
 * whole app beside what is tested: what is about being offline opens the app by `firstVisit`.
 */
export async function openApp(options: VisitorOptions = {}): Promise<App> {
  const server = await serveDist();
  const browser = await openVisitor({ serviceWorkers: 'block', ...options });
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
