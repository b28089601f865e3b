import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { DATABASE_NAME, DATABASE_VERSION } from '../../src/store/schema.ts';
import type { Answer, Ask } from '../../src/store/snapshots/ask.ts';
import { keepBeforeUpgrade } from '../../src/ui/beforeUpgrade.ts';

let asked: Ask[];

beforeEach(() => {
  asked = [];
  vi.stubGlobal(
    'Worker',
    class {
      onmessage: ((event: { data: Answer }) => void) | null = null;
      postMessage(ask: Ask): void {
        asked.push(ask);
        queueMicrotask(() => this.onmessage?.({ data: { ok: true, value: null } }));
      }
      terminate(): void {}
    },
  );
});

afterEach(() => vi.unstubAllGlobals());

/** A browser in which the database lies in some version; 0: in none. */
function holding(version: number): IDBFactory {
  const databases = async () => (version === 0 ? [] : [{ name: DATABASE_NAME, version }]);
  return { databases } as unknown as IDBFactory;
}

const reasons = () => asked.map((ask) => (ask.kind === 'take' ? ask.order.reason : ask.kind));

it('what an older version laid out is kept before it is laid out anew', async () => {
  for (let version = 1; version < DATABASE_VERSION; version++) {
    asked = [];
    await keepBeforeUpgrade(holding(version));
    expect(reasons()).toEqual(['migration']);
  }
});

it('nothing is kept of what stays as it is, or is not there', async () => {
  await keepBeforeUpgrade(holding(DATABASE_VERSION));
  await keepBeforeUpgrade(holding(0));
  expect(reasons()).toEqual([]);
});
