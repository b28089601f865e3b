// What the browser tests share: the built app on a server that can be stopped, and the real
// browsers of this machine. Everything opened here is closed by its own `close`.
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import puppeteer, { type Browser as Firefox, type Page as FirefoxPage } from 'puppeteer-core';
import { Builder, Capabilities, type WebDriver } from 'selenium-webdriver';
import {
  findChromium,
  findFirefox,
  findMiniBrowser,
  findProgram,
  findWebKitDriver,
  root,
  wanted,
} from '../../scripts/ensure.mjs';
import { serveFolder } from '../../scripts/serve.mjs';

/** The folder of the built app; FELLMARK_DIST names another, so that two builds can be tested. */
export const distDir = process.env.FELLMARK_DIST ?? join(root, 'dist');

/**
 * The list of its address bar is a page with a process of its own, drawn for every window, even one that
 * nobody sees: half the work of a visitor who comes and looks at one screen.
 */
const ADDRESS_BAR = ['WebUIOmniboxPopup', 'WebUIOmniboxAimPopup', 'WebUIOmniboxFullPopup'];

/** What playwright itself takes away for the sake of its work: the switch counts once, the last time. */
const TAKEN_BY_PLAYWRIGHT = [
  'AvoidUnnecessaryBeforeUnloadCheckSync',
  'DestroyProfileOnBrowserClose',
  'HttpsUpgrades',
  'HttpsFirstBalancedModeAutoEnable',
  'LensOverlay',
  'MediaRouter',
  'PaintHolding',
  'ThirdPartyStoragePartitioning',
  'AvoidCorsURLLoaderRestartOnRedirect',
  'OptimizationHints',
  'NetworkTimeServiceQuerying',
  'AimEnabled',
  'PreconnectToSearch',
];

const chromiumArgs = [
  `--disable-features=${[...TAKEN_BY_PLAYWRIGHT, ...ADDRESS_BAR].join(',')}`,
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

// Without this playwright does not report what a service worker itself asks for.
process.env.PW_EXPERIMENTAL_SERVICE_WORKER_NETWORK_EVENTS = '1';

/** The built app on 127.0.0.1. Offline is `stop()`; `start()` is the same port again. */
export function serveDist({ dir = distDir, port = 0 } = {}): ReturnType<typeof serveFolder> {
  return serveFolder({ dir, port });
}

/** A new empty folder outside the project; the caller removes it with `removeDir`. */
export function makeTempDir(purpose: string): string {
  return mkdtempSync(join(tmpdir(), `fellmark-${purpose}-`));
}

/**
 * Removes a folder a browser may still be writing its last bytes to. What cannot be removed after
 * a while is left to the system: it lies among the temporary files, and no test is about it.
 */
export function removeDir(dir: string): void {
  try {
    rmSync(dir, { recursive: true, force: true, maxRetries: 8, retryDelay: 100 });
  } catch (error) {
    console.warn(`left behind: ${dir}`, error);
  }
}

export interface VisitorOptions {
  /** CSS px. */
  readonly viewport?: { readonly width: number; readonly height: number };
  readonly colorScheme?: 'light' | 'dark';
  readonly reducedMotion?: 'reduce' | 'no-preference';
  readonly deviceScaleFactor?: number;
  readonly hasTouch?: boolean;
  /** What the reader's browser asks for, such as `fr-FR`. */
  readonly locale?: string;
  /** `block` keeps the app from registering one. */
  readonly serviceWorkers?: 'allow' | 'block';
}

export interface ChromiumOptions extends VisitorOptions {
  /** Kept by `close` and `kill9`, so that the next browser finds what this one stored. */
  readonly profileDir?: string;
  /** Switches beside the usual ones, such as a film in place of a camera. */
  readonly args?: readonly string[];
  /** How many times slower than this machine; 1 is this machine. */
  readonly cpuThrottle?: number;
}

export interface Visitor {
  readonly context: BrowserContext;
  readonly page: Page;
  /** Ends as a person would, and nothing that was not given remains. */
  readonly close: () => Promise<void>;
}

export interface ChromiumHandle extends Visitor {
  readonly profileDir: string;
}

/** A control that is not there in ten seconds will not come. */
const CONTROL_MS = 10_000;

const launched = (args: readonly string[] = []) => ({
  executablePath: wanted(findChromium(), 'chromium'),
  headless: true,
  args: [...chromiumArgs, ...args],
});

const asSeenBy = (options: VisitorOptions) => ({
  viewport: options.viewport ?? { width: 1180, height: 820 },
  colorScheme: options.colorScheme ?? 'light',
  reducedMotion: options.reducedMotion ?? 'no-preference',
  deviceScaleFactor: options.deviceScaleFactor ?? 1,
  hasTouch: options.hasTouch ?? false,
  serviceWorkers: options.serviceWorkers ?? 'allow',
  ...(options.locale === undefined ? {} : { locale: options.locale }),
});

/** Starts with a third less work, and passes no picture from one process to another. */
const WITHOUT_A_PROCESS_TO_DRAW = '--in-process-gpu';

let shared: Promise<Browser> | undefined;

/** Lives as long as the process of the tests, through all its files. */
async function sharedChromium(): Promise<Browser> {
  const open = await shared?.catch(() => undefined);
  if (open?.isConnected() === true) return open;
  shared = chromium.launch(launched([WITHOUT_A_PROCESS_TO_DRAW]));
  return shared;
}

/**
 * Somebody who was never here: a real database, service worker and private files of its own, kept in
 * memory until `close`, one page open. To start a whole browser takes half as much work again, and is
 * for what is about a disk, a kill or a second launch. Throws when Chromium is not installed.
 */
export async function openVisitor(options: VisitorOptions = {}): Promise<Visitor> {
  const context = await (await sharedChromium()).newContext(asSeenBy(options));
  context.setDefaultTimeout(CONTROL_MS);
  return { context, page: await context.newPage(), close: () => context.close() };
}

/** Starts Chromium with a profile on disk, one page open. Throws when Chromium is not installed. */
export async function openChromium(options: ChromiumOptions = {}): Promise<ChromiumHandle> {
  const profileDir = options.profileDir ?? makeTempDir('chromium');
  const context = await chromium.launchPersistentContext(profileDir, {
    ...launched(options.args),
    ...asSeenBy(options),
  });
  context.setDefaultTimeout(CONTROL_MS);
  const page = context.pages()[0] ?? (await context.newPage());
  if (options.cpuThrottle !== undefined) await throttle(page, options.cpuThrottle);
  const close = async () => {
    await context.close();
    if (options.profileDir === undefined) removeDir(profileDir);
  };
  return { context, page, profileDir, close };
}

async function throttle(page: Page, rate: number): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
}

/**
 * Ends every process of this Chromium at once with SIGKILL, as a crash or an empty battery would,
 * and waits until they are gone. The profile stays. Linux only: reads /proc.
 */
export async function kill9(browser: Pick<ChromiumHandle, 'profileDir'>): Promise<void> {
  const killed = processesUsing(browser.profileDir);
  if (killed.length === 0) throw new Error(`got no process using ${browser.profileDir}`);
  for (const pid of killed) sendKill(pid);
  const isGone = await waitUntil(() => processesUsing(browser.profileDir).length === 0, 10_000);
  if (!isGone) throw new Error(`processes using ${browser.profileDir} outlived SIGKILL`);
}

function processesUsing(profileDir: string): readonly number[] {
  const pids = readdirSync('/proc').filter((name) => /^\d+$/.test(name));
  const argument = ` --user-data-dir=${profileDir} `;
  return pids.filter((pid) => commandLineOf(pid).includes(argument)).map(Number);
}

/**
 * Chromium's children write theirs with spaces, not zeros, between the arguments. Empty when the
 * process has ended, a zombie included: it can no longer write.
 */
function commandLineOf(pid: string): string {
  try {
    return `${readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ')} `;
  } catch {
    return '';
  }
}

function sendKill(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL');
  } catch {
    // Gone already: children end when their parent does.
  }
}

export interface FirefoxHandle {
  readonly browser: Firefox;
  readonly page: FirefoxPage;
  readonly profileDir: string;
  /** Ends the browser; removes the profile unless it was given. */
  readonly close: () => Promise<void>;
}

/** Starts Firefox, driven over WebDriver BiDi. Throws when Firefox is not installed. */
export async function openFirefox(
  options: { readonly profileDir?: string } = {},
): Promise<FirefoxHandle> {
  const profileDir = options.profileDir ?? makeTempDir('firefox');
  const browser = await puppeteer.launch({
    browser: 'firefox',
    executablePath: wanted(findFirefox(), 'firefox-esr'),
    headless: true,
    userDataDir: profileDir,
  });
  const page = await browser.newPage();
  const close = async () => {
    await browser.close();
    if (options.profileDir === undefined) removeDir(profileDir);
  };
  return { browser, page, profileDir, close };
}

export interface WebKitHandle {
  readonly driver: WebDriver;
  readonly close: () => Promise<void>;
}

/**
 * Starts WebKit's plain browser on a screen of its own. What it stores outlives a reload, but never
 * the browser. It is WebKit, not iPadOS. Throws when a part of it is not installed.
 */
export async function openWebKit(): Promise<WebKitHandle> {
  const dir = makeTempDir('webkit');
  const screen = await startScreen();
  const port = await freePort();
  const server = spawn(wanted(findWebKitDriver(), 'WebKitWebDriver'), [`--port=${port}`], {
    stdio: 'ignore',
    env: {
      ...process.env,
      DISPLAY: screen.display,
      XDG_DATA_HOME: join(dir, 'data'),
      XDG_CACHE_HOME: join(dir, 'cache'),
    },
  });
  const stop = async () => {
    await endProcess(server);
    await endProcess(screen.process);
    removeDir(dir);
  };
  try {
    await waitForPort(port);
    const driver = await buildDriver(port);
    const close = async () => {
      await driver.quit();
      await stop();
    };
    return { driver, close };
  } catch (error) {
    await stop();
    throw error;
  }
}

async function buildDriver(port: number): Promise<WebDriver> {
  const binary = wanted(findMiniBrowser(), 'MiniBrowser');
  const capabilities = new Capabilities({
    browserName: 'MiniBrowser',
    'webkitgtk:browserOptions': { binary, args: ['--automation'] },
  });
  return new Builder()
    .usingServer(`http://127.0.0.1:${port}`)
    .withCapabilities(capabilities)
    .build();
}

/** Xvfb chooses a free display by itself and writes its number to the descriptor named. */
async function startScreen(): Promise<{
  readonly process: ChildProcess;
  readonly display: string;
}> {
  const args = ['-displayfd', '1', '-screen', '0', '1280x1024x24', '-nolisten', 'tcp'];
  const child = spawn(wanted(findProgram(['Xvfb']), 'Xvfb'), args, {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const number = await new Promise<string>((resolve, reject) => {
    child.stdout.once('data', (data) => resolve(String(data).trim()));
    child.once('exit', (code) => reject(new Error(`Xvfb ended with code ${code}`)));
    child.once('error', reject);
  });
  return { process: child, display: `:${number}` };
}

async function endProcess(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const ended = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGTERM');
  const isEnded = await Promise.race([ended.then(() => true), sleep(5000, false)]);
  if (!isEnded) child.kill('SIGKILL');
  await ended;
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer().once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      const port = typeof address === 'object' && address !== null ? address.port : 0;
      probe.close(() => resolve(port));
    });
  });
}

async function waitForPort(port: number): Promise<void> {
  const answers = async () => {
    const status = await fetch(`http://127.0.0.1:${port}/status`).catch(() => undefined);
    return status?.ok === true;
  };
  if (!(await waitUntil(answers, 15_000))) throw new Error(`got no answer on port ${port} in 15 s`);
}

/** Asks every 50 ms until the answer is yes, or the time (ms) is over; says which. */
export async function waitUntil(
  question: () => boolean | Promise<boolean>,
  limitMs: number,
): Promise<boolean> {
  const end = Date.now() + limitMs;
  while (Date.now() < end) {
    if (await question()) return true;
    await sleep(50);
  }
  return false;
}
