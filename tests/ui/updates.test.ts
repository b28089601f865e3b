// When a newer version is looked for: at the start, with the network, when seen again, every hour.
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { registerWorker } from '../../src/ui/device/updates.ts';

const asked = vi.hoisted((): string[] => []);
vi.mock('workbox-window', () => ({
  Workbox: class {
    addEventListener(): void {}
    register = async () => asked.push('registered');
    update = async () => asked.push('looked');
  },
}));

let heard: Map<string, () => void>;
let every: { readonly run: () => void; readonly ms: number }[];
const page = { visibilityState: 'visible' };

beforeEach(() => {
  asked.length = 0;
  heard = new Map();
  every = [];
  const listen = (name: string, run: () => void) => heard.set(name, run);
  vi.stubEnv('PROD', true);
  vi.stubGlobal('navigator', { serviceWorker: { getRegistration: async () => undefined } });
  vi.stubGlobal('addEventListener', listen);
  vi.stubGlobal('document', Object.assign(page, { addEventListener: listen }));
  vi.stubGlobal('setInterval', (run: () => void, ms: number) => every.push({ run, ms }));
  registerWorker();
});

afterEach(() => {
  vi.unstubAllEnvs();
  vi.unstubAllGlobals();
});

it('at the start, by registering', () => {
  expect(asked).toEqual(['registered']);
});

it('when there is a network again', () => {
  heard.get('online')?.();
  expect(asked).toEqual(['registered', 'looked']);
});

it('when the page is seen again, and not when it is hidden', () => {
  page.visibilityState = 'hidden';
  heard.get('visibilitychange')?.();
  expect(asked).toEqual(['registered']);
  page.visibilityState = 'visible';
  heard.get('visibilitychange')?.();
  expect(asked).toEqual(['registered', 'looked']);
});

it('every hour', () => {
  expect(every.map(({ ms }) => ms)).toEqual([3_600_000]);
  every[0]?.run();
  expect(asked).toEqual(['registered', 'looked']);
});
