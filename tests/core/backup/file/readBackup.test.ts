import { crc32 } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BACKUP_LIMITS,
  checksumOfBody,
  writeBackup,
} from '../../../../src/core/backup/file/backupFile.ts';
import { checksumOf } from '../../../../src/core/backup/file/checksum.ts';
import { formatOf } from '../../../../src/core/backup/file/formatOf.ts';
import { readBackup } from '../../../../src/core/backup/file/readBackup.ts';
import { demoText } from '../../plan/samples.ts';
import { picksOf, stateOf, timeAt, warpOf } from '../states.ts';

const plans = [{ revision: 0, madeAt: timeAt(0), plan: { name: 'Towels' } }];
const STATE = stateOf([warpOf('w', picksOf('p', 4), { plans }), warpOf('x', [], { plans })], {
  records: [{ kind: 'yarn', id: 'y', changedAt: timeAt(5), body: { name: 'Moss' } }],
  settings: [{ name: 'hand', value: 'left' }],
});
const TEXT = writeBackup({ madeAt: timeAt(90), app: '0.1.0', ...STATE });

interface Json {
  [key: string]: Json;
}

/** The file with one thing changed and a checksum that fits: what its writer would have to have meant. */
function having(change: (file: Json) => unknown): string {
  const file = JSON.parse(TEXT) as Json;
  change(file);
  const { checksum, ...body } = file;
  return JSON.stringify({ ...body, checksum: checksumOfBody(body) });
}

const put =
  (path: string, value: unknown) =>
  (file: Json): void => {
    const keys = path.match(/[^.[\]]+/g) ?? [];
    const last = keys.pop() ?? '';
    const at = keys.reduce<Json>((it, key) => it[key] as Json, file);
    if (value === undefined) delete (at as { [key: string]: unknown })[last];
    else (at as { [key: string]: unknown })[last] = value;
  };

function problemsOf(text: string): unknown {
  const read = readBackup(text);
  return read.ok ? 'none' : read.problem.map(({ path, code }) => `${path} ${code}`.trim());
}

describe('a file that is no whole backup is refused with its fault', () => {
  it.each([
    ['nothing', '', ['not-json']],
    ['words', 'warp and weft', ['not-json']],
    ['a list', '[]', ['wrong-type']],
    ['null', 'null', ['wrong-type']],
    ['a plan file', demoText('moss-and-chalk'), ['format wrong-format']],
    ['the first half of it', TEXT.slice(0, TEXT.length / 2), ['cut-short']],
    ['a letter of a name changed', TEXT.replace('Warp w', 'Warp v'), ['changed']],
    [
      'one event left out',
      TEXT.replace(/\{"id":"p1".*\n/, ''),
      ['changed', 'holds.events count-differs'],
    ],
    ['no checksum', TEXT.replace(/"checksum".*\n/, ''), ['checksum missing']],
  ])('%s', (_what, text, problems) => {
    expect(problemsOf(text)).toEqual(problems);
  });

  it.each([
    ['version', 2, ['version newer-version']],
    ['version', '1', ['version wrong-version']],
    ['version', undefined, ['version wrong-version']],
    ['madeAt', 'yesterday', ['madeAt bad-time']],
    ['app', 3, ['app wrong-type']],
    ['holds', undefined, ['holds missing']],
    ['holds.warps', 3, ['holds.warps count-differs']],
    ['warps', undefined, ['warps missing']],
    ['warps', {}, ['warps wrong-type']],
    ['warps[0]', null, ['warps[0] wrong-type']],
    ['warps[0].id', '', ['warps[0].id too-short']],
    ['warps[1].id', 'w', ['warps[1] same-id']],
    ['warps[0].demo', 'no', ['warps[0].demo wrong-type']],
    ['warps[0].wovenAt', undefined, ['warps[0].wovenAt missing']],
    ['warps[0].branchOf', { warp: 'v' }, ['warps[0].branchOf.from missing']],
    ['warps[0].weight', 3, ['warps[0].weight unknown-field']],
    ['warps[0].plans[0].revision', 0.5, ['warps[0].plans[0].revision not-whole']],
    ['warps[0].log[2].id', 'p1', ['warps[0].log[2] same-id']],
    ['warps[0].log[2].at', '2026-02-30', ['warps[0].log[2].at bad-time']],
    ['warps[0].log[2].kind', 'flown', ['warps[0].log[2].kind unknown-event']],
    ['warps[0].log[2].kind', 'toString', ['warps[0].log[2].kind unknown-event']],
    ['warps[0].log[2].kind', undefined, ['warps[0].log[2].kind missing']],
    ['warps[0].log[2].kind', { toString: 1, valueOf: 1 }, ['warps[0].log[2].kind missing']],
    ['warps[0].log[2].picks', -1, ['warps[0].log[2].picks too-small']],
    ['warps[0].log[2].picks', 1e308, ['warps[0].log[2].picks too-big']],
    ['warps[0].log[2].picks', 1.5, ['warps[0].log[2].picks not-whole']],
    ['warps[0].log[2].picks', 1e9, ['warps[0].log[2].picks too-big']],
    ['warps[0].log[2].picks', undefined, ['warps[0].log[2].picks missing']],
    ['warps[0].log[2].weft', 1, ['warps[0].log[2].weft unknown-field']],
    ['records[0].kind', 7, ['records[0].kind wrong-type']],
    ['records[0].changedAt', 7, ['records[0].changedAt wrong-type']],
    ['settings[0].name', undefined, ['settings[0].name missing']],
  ])('%s is %j', (path, value, problems) => {
    expect(problemsOf(having(put(path, value)))).toEqual(problems);
  });

  it('says what stood there and what would be right', () => {
    expect(readBackup(having(put('holds.warps', 3)))).toEqual({
      ok: false,
      problem: [{ path: 'holds.warps', code: 'count-differs', got: '2', right: '3' }],
    });
    expect(readBackup(having(put('warps[0].log[1].kind', 'flown')))).toMatchObject({
      problem: [{ code: 'unknown-event', got: 'flown' }],
    });
  });

  it('names fifty faults at most', () => {
    const many = having((file) => {
      put('warps[0].log', Array(5000).fill({ kind: 'flown' }))(file);
    });
    expect(problemsOf(many)).toHaveLength(50);
  });
});

describe('a file as long as it likes', () => {
  it.each([
    ['lists within lists', '['.repeat(3_000_000), 'too-deep'],
    ['objects within objects', '{"a":'.repeat(600_000), 'too-deep'],
    ['millions of lists', `[${'[],'.repeat(5_000_001)}[]]`, 'too-large'],
    ['brackets in a name', `{"format":"${'['.repeat(1000)}`, 'cut-short'],
  ])('%s', (_what, text, code) => {
    expect(problemsOf(text)).toEqual([code]);
  });

  it('is not even looked through above the limit', () => {
    const long = { length: BACKUP_LIMITS.text + 1 } as unknown as string;
    expect(problemsOf(long)).toEqual(['too-large']);
  });
});

describe('cut or changed anywhere', () => {
  it('a file cut at any length is refused', () => {
    // Without its last line feed it is still whole.
    for (let length = 0; length < TEXT.length - 1; length++) {
      expect(problemsOf(TEXT.slice(0, length)), `cut at ${length}`).not.toBe('none');
    }
    expect(problemsOf(TEXT.slice(0, -1))).toBe('none');
  });

  it('a file with any bit of any letter turned is refused, or reads as it was', () => {
    const whole = readBackup(TEXT);
    let same = 0;
    for (let at = 0; at < TEXT.length; at++) {
      for (let bit = 0; bit < 8; bit++) {
        const turned = String.fromCharCode(TEXT.charCodeAt(at) ^ (1 << bit));
        const read = readBackup(`${TEXT.slice(0, at)}${turned}${TEXT.slice(at + 1)}`);
        if (!read.ok) continue;
        same++;
        expect(read, `bit ${bit} at ${at}`).toEqual(whole);
      }
    }
    // One kind of white space for another, and nothing else.
    expect(same).toBeLessThan(TEXT.length / 10);
  });

  it('a number too large for any number is refused with its place, although the checksum fits', () => {
    const text = having(put('settings[0].value', null)).replace('"value":null', '"value":1e999');
    expect(problemsOf(text)).toEqual(['settings[0].value too-big']);
  });

  it('keys of every object’s prototype do nothing', () => {
    const before = Object.getOwnPropertyNames(Object.prototype).length;
    const bad = TEXT.replace('"warps": [', '"__proto__": {"demo": true}, "warps": [');
    expect(problemsOf(bad)).toEqual(['changed']);
    const rightful = having((file) => {
      put('warps[0].plans[0].plan', JSON.parse('{"__proto__": {"x": 1}, "constructor": 2}'))(file);
      put('settings[0].value', JSON.parse('{"__proto__": {"x": 1}}'))(file);
    });
    const read = readBackup(rightful);
    expect(read.ok).toBe(true);
    expect(Object.getOwnPropertyNames(Object.prototype)).toHaveLength(before);
    expect(({} as { x?: number }).x).toBeUndefined();
  });
});

describe('the checksum', () => {
  // The check value of this polynomial (ISO 3309), as every list of CRCs has it.
  it.each([
    ['', '00000000'],
    ['123456789', 'cbf43926'],
  ])('of “%s” is %s', (text, sum) => {
    expect(checksumOf(text)).toBe(sum);
  });

  it('of a text longer than is summed at one go is what zlib says', () => {
    const text = 'Moss and chalk, 12 picks. '.repeat(10_000);
    expect(checksumOf(text)).toBe(crc32(text).toString(16).padStart(8, '0'));
  });

  it('differs wherever one letter differs', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', minLength: 1 }),
        fc.nat(),
        fc.integer({ min: 1, max: 0xffff }),
        (text, at, change) => {
          const n = at % text.length;
          const other = String.fromCharCode(text.charCodeAt(n) ^ change);
          expect(checksumOf(`${text.slice(0, n)}${other}${text.slice(n + 1)}`)).not.toBe(
            checksumOf(text),
          );
        },
      ),
    );
  });
});

describe('what a file is', () => {
  it.each([
    [TEXT, 'fellmark-backup'],
    [demoText('moss-and-chalk'), 'fellmark-plan'],
    [TEXT.slice(0, 100), 'fellmark-backup'],
    ['{"a": 1}', null],
    ['', null],
  ])('is told from its beginning', (text, format) => {
    expect(formatOf(text)).toBe(format);
  });
});
