// What browsers and tests leave among the temporary files goes when the run ends.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

let dir = '';

export function setup(): void {
  dir = mkdtempSync(join(tmpdir(), 'fellmark-run-'));
  // The processes of the tests, and the browsers they start, go by it.
  process.env.TMPDIR = dir;
}

export function teardown(): void {
  rmSync(dir, { recursive: true, force: true, maxRetries: 8, retryDelay: 100 });
}
