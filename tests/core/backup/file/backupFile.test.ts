import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeBackup } from '../../../../src/core/backup/file/backupFile.ts';
import { readBackup } from '../../../../src/core/backup/file/readBackup.ts';
import { anyContents, headOf, picksOf, stateOf, timeAt } from '../states.ts';

const MADE = { madeAt: timeAt(90), app: '0.1.0' };

describe('a backup file', () => {
  const log = picksOf('p', 3);
  const state = stateOf(
    [
      {
        warp: headOf('w', { name: 'Towels, “moss”' }),
        plans: [{ revision: 0, madeAt: timeAt(0), plan: { name: 'Towels' } }],
        log: log.map((event, n) => (n === 2 ? { ...event, after: 'p0' } : event)),
      },
    ],
    {
      records: [{ kind: 'yarn', id: 'y', changedAt: timeAt(5), body: { name: 'Moss' } }],
      settings: [{ name: 'weaving', value: 'w' }],
    },
  );

  it('is text a person can read: one event a line, what follows what only where it is not the line before', () => {
    expect(writeBackup({ ...MADE, ...state })).toBe(
      `{ "format": "fellmark-backup",
 "version": 1,
 "madeAt": "2026-03-01T10:30:00.000Z",
 "app": "0.1.0",
 "holds": {
  "warps": 1,
  "plans": 1,
  "events": 3,
  "records": 1,
  "settings": 1
 },
"checksum": "${checksumIn(writeBackup({ ...MADE, ...state }))}",
"warps": [
{ "id": "w",
 "name": "Towels, “moss”",
 "demo": false,
 "madeAt": "2026-03-01T09:00:00.000Z",
 "wovenAt": null,
"plans": [
{
 "revision": 0,
 "madeAt": "2026-03-01T09:00:00.000Z",
 "plan": {
  "name": "Towels"
 }
}
],
"log": [
{"id":"p0","at":"2026-03-01T09:00:00.000Z","kind":"thrown","picks":1},
{"id":"p1","at":"2026-03-01T09:01:00.000Z","kind":"thrown","picks":1},
{"id":"p2","at":"2026-03-01T09:02:00.000Z","kind":"thrown","picks":1,"after":"p0"}
]}
],
"records": [
{"kind":"yarn","id":"y","changedAt":"2026-03-01T09:05:00.000Z","body":{"name":"Moss"}}
],
"settings": [
{"name":"weaving","value":"w"}
]}
`,
    );
  });

  it('reads back as what was written, also when an editor has laid it out anew', () => {
    const text = writeBackup({ ...MADE, ...state });
    expect(readBackup(text)).toEqual({ ok: true, value: { ...MADE, ...state } });
    for (const again of [JSON.stringify(JSON.parse(text)), text.replaceAll('\n', '\r\n')]) {
      expect(readBackup(again)).toEqual({ ok: true, value: { ...MADE, ...state } });
    }
  });

  it('of nothing reads back as nothing', () => {
    const nothing = { ...MADE, ...stateOf([]) };
    expect(readBackup(writeBackup(nothing))).toEqual({ ok: true, value: nothing });
  });

  it('leaves out no state: what is written is what is read', () => {
    fc.assert(
      fc.property(anyContents, (contents) => {
        const read = readBackup(writeBackup({ ...MADE, ...contents }));
        expect(read).toEqual({ ok: true, value: { ...MADE, ...contents } });
        // Vitest passes over a key named `__proto__`.
        expect(
          isDeepStrictEqual(plain(read), plain({ ok: true, value: { ...MADE, ...contents } })),
        ).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});

/** Without the prototypes that the generators give. */
const plain = (value: unknown): unknown => structuredClone(value);

function checksumIn(text: string): string {
  return /"checksum": "([0-9a-f]{8})"/.exec(text)?.[1] ?? 'none';
}
