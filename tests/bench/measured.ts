/** Parts of the benchmarks, one after the other. */
import type { Failure, Part, Row } from './row.ts';
import type { Results } from './table.ts';

/** Every part once; one that throws is said, and the next is measured. */
export async function measured<T>(
  parts: readonly Part<T>[],
  ground: T,
  say: (what: string) => void,
): Promise<Results> {
  const rows: Row[] = [];
  const failures: Failure[] = [];
  for (const { what, run } of parts) {
    say(what);
    try {
      rows.push(...(await run(ground)));
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      say(`${what} could not be measured: ${why}`);
      failures.push({ what, why });
    }
  }
  return { rows, failures };
}
