import { createServer, type Server } from 'node:http';
import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  button,
  closed,
  firstVisit,
  openMore,
  saved,
  scene,
  setBounce,
  throwPicks,
  toWarps,
  weaveDemo,
} from './bench.ts';
import { openVisitor, serveDist, type Visitor } from './harness.ts';

/** What the worker looks for by itself, to learn of a new version. */
const UPDATE_CHECK = /^\/(sw|workbox-[^/]+)\.js$/;

let dist: Awaited<ReturnType<typeof serveDist>>;
let front: Server;
let browser: Visitor;
let url = '';
/** Paths that reached the server, as the server has them. */
const reached: string[] = [];
/** Hosts any page or worker of the browser asked. */
const hosts = new Set<string>();

beforeAll(async () => {
  dist = await serveDist();
  front = createServer((request, response) => {
    reached.push(request.url ?? '');
    fetch(new URL(request.url ?? '/', dist.url)).then(
      async (answer) => {
        const type = answer.headers.get('content-type') ?? '';
        response.writeHead(answer.status, { 'content-type': type, 'cache-control': 'no-cache' });
        response.end(Buffer.from(await answer.arrayBuffer()));
      },
      () => response.destroy(),
    );
  });
  url = await new Promise<string>((resolve) => {
    front.listen(0, '127.0.0.1', () => {
      const address = front.address();
      resolve(`http://127.0.0.1:${typeof address === 'object' ? address?.port : 0}/`);
    });
  });
  browser = await openVisitor();
  browser.context.on('request', (request) => {
    if (request.url().startsWith('http')) hosts.add(new URL(request.url()).host);
  });
  await firstVisit(browser.page, url);
});

afterAll(async () => {
  await browser.close();
  front.closeAllConnections();
  front.close();
  await dist.stop();
});

it('the first visit fetches everything from the app’s own host', () => {
  expect(reached).toContain('/');
  expect(reached).toContain('/manifest.webmanifest');
  expect(reached.some((path) => path.startsWith('/assets/loom-'))).toBe(true);
  expect([...hosts]).toEqual([new URL(url).host]);
});

it('after it nothing is asked of any server, but whether there is a new version', async () => {
  const { page } = browser;
  // The first visit may still be fetching for its cache when its last check has been answered.
  await page.waitForLoadState('networkidle');
  const before = reached.length;
  await page.reload();
  await page.getByRole('heading', { name: 'Fellmark' }).waitFor();
  await weaveDemo(page, 'ink-oat-ochre');
  await setBounce(page, 'at once');
  await throwPicks(page, 40);
  await openMore(page, 'Find my place');
  await button(page, 'Close').click();
  await closed(page);
  await saved(page);
  await page.reload();
  await scene(page).waitFor();
  await toWarps(page);
  const later = reached.slice(before);
  expect(later.filter((path) => !UPDATE_CHECK.test(path))).toEqual([]);
  expect([...hosts]).toEqual([new URL(url).host]);
});

it('a single request after it is seen by the same look', async () => {
  const { page } = browser;
  const before = reached.length;
  // Past the cache, as an app would that counted its users.
  await page.evaluate("fetch('./seen?by=nobody', { cache: 'no-store' }).then(() => true)");
  const later = reached.slice(before);
  expect(later.filter((path) => !UPDATE_CHECK.test(path))).toEqual(['/seen?by=nobody']);
});
