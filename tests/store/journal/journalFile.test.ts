import { describe, expect, test } from 'vitest';
import {
  type Comparison,
  createJournalFile,
  type JournalFile,
} from '../../../src/store/journal/journalFile.ts';
import { encodeLine } from '../../../src/store/journal/line.ts';
import type { Entry, Ledger, Op } from '../../../src/store/op.ts';
import { type FakeFiles, fakeFiles, PowerCut } from '../files.ts';
import { samplePlan, sampleRecord, sampleWarp, tap } from '../samples.ts';

const DATA = 3;
const STORE = 'a store';

const openOn = ({ files }: FakeFiles): JournalFile => createJournalFile(files, DATA);

function entry(n: number, op: Op = { kind: 'events', events: [tap('a', n)] }): Entry {
  return { n, by: 'w', after: n - 1, op };
}

const begun: readonly Entry[] = [
  { ...entry(5, { kind: 'warp', warp: sampleWarp('a'), plan: samplePlan('A') }), after: 5 },
  { ...entry(5, { kind: 'record', record: sampleRecord('yarn', 'moss') }), after: 5 },
];

/** A journal begun at write 5 with two lines, and then written to up to `last`. */
function journalUpTo(last: number): FakeFiles {
  const files = fakeFiles();
  const journal = openOn(files);
  journal.rewrite(STORE, { n: 5, by: 'w' }, begun);
  for (let n = 6; n <= last; n += 1) journal.append(entry(n));
  return files;
}

function ledgerAt(n: number, flushed = n): Ledger {
  return { store: STORE, n, by: 'w', flushed, events: 0, warps: 0 };
}

/** All that a database without anything would be given. */
function allIn(files: FakeFiles): readonly number[] {
  return missingFrom(openOn(files).compare(null));
}

function missingFrom(found: Comparison): readonly number[] {
  return found.kind === 'differs' ? found.missing.map(({ n }) => n) : [];
}

describe('compared with the database', () => {
  test.each<[string, Ledger, Comparison['kind'], readonly number[], boolean]>([
    ['at the same place', ledgerAt(9), 'same', [], true],
    ['that is one write behind', ledgerAt(8), 'differs', [9], true],
    ['that is at its beginning', ledgerAt(5), 'differs', [6, 7, 8, 9], true],
    ['that is ahead', ledgerAt(10, 9), 'differs', [], false],
    [
      'that is ahead by a write of another window',
      { ...ledgerAt(10, 9), by: 'v' },
      'differs',
      [],
      false,
    ],
    ['that went another way', { ...ledgerAt(8, 7), by: 'v' }, 'differs', [8, 9], false],
    ['of another store', { ...ledgerAt(9), store: 'other' }, 'differs', [5, 5, 6, 7, 8, 9], false],
  ])('%s', (_what, ledger, kind, missing, isWhole) => {
    const found = openOn(journalUpTo(9)).compare(ledger);
    expect(found.kind).toBe(kind);
    expect(missingFrom(found)).toEqual(missing);
    if (found.kind === 'differs') expect(found.isWhole).toBe(isWhole);
  });

  test('just begun, it is at the place it was begun at', () => {
    expect(openOn(journalUpTo(5)).compare(ledgerAt(5))).toEqual({ kind: 'same' });
  });

  test('begun with nothing, it is still at that place', () => {
    const files = fakeFiles();
    openOn(files).rewrite(STORE, { n: 7, by: 'w' }, []);
    expect(openOn(files).compare(ledgerAt(7))).toEqual({ kind: 'same' });
  });

  test('where there is none it is none', () => {
    expect(openOn(fakeFiles()).compare(ledgerAt(9))).toEqual({ kind: 'none' });
  });

  test.each([
    ['format', { journal: 2, data: DATA }],
    ['data', { journal: 1, data: DATA + 1 }],
  ])('of a newer %s it is not touched', (_what, versions) => {
    const files = journalUpTo(9);
    const head = { ...versions, store: STORE, generation: 9, n: 5, by: 'w', lines: 0, bytes: 256 };
    files.files[0].write(encodeLine(head, 256), { at: 0 });
    const before = files.count();
    expect(openOn(files).compare(ledgerAt(9))).toEqual({ kind: 'newer' });
    expect(files.count()).toBe(before);
  });

  test('a million bytes long, it reads only the end when all is well', () => {
    const files = journalUpTo(6);
    const journal = openOn(files);
    for (let n = 7; n <= 6_000; n += 1) journal.append(entry(n));
    let read = 0;
    const [file] = files.files;
    const counting = {
      ...file,
      read: (...args: Parameters<typeof file.read>) => (read += file.read(...args)),
    };
    expect(createJournalFile([counting, files.files[1]], DATA).compare(ledgerAt(6_000))).toEqual({
      kind: 'same',
    });
    expect(file.getSize()).toBeGreaterThan(1_000_000);
    expect(read).toBeLessThan(70_000);
  });

  test('one line longer than the end that is read is read all the same', () => {
    const files = journalUpTo(9);
    const long: Op = { kind: 'setting', name: 'note', value: 'x'.repeat(200_000) };
    openOn(files).append(entry(10, long));
    const found = openOn(files).compare(ledgerAt(10));
    expect(found.kind === 'same' || (found.kind === 'differs' && found.isWhole)).toBe(true);
    expect(missingFrom(openOn(files).compare(ledgerAt(9)))).toEqual([10]);
  });
});

describe('the last three records, cut off or changed at every byte', () => {
  const whole = journalUpTo(12);
  const bytes = whole.files[0].bytes();
  const from = journalUpTo(9).files[0].getSize();

  test('are known to be damaged, and what is whole in them counts', () => {
    const ends = [9, 10, 11].map((n) => journalUpTo(n).files[0].getSize());
    for (let length = from + 1; length < bytes.length; length += 1) {
      const files = journalUpTo(5);
      files.files[0].set(bytes.slice(0, length));
      const left = allIn(files);
      // A record that lacks only its line feed is whole.
      const wanted = [5, 5, 6, 7, 8, 9, 10, 11, 12].filter(
        (n) => n <= 9 || journalUpTo(n).files[0].getSize() - 1 <= length,
      );
      expect(left).toEqual(wanted);
      const found = openOn(files).compare(ledgerAt(12));
      expect(found).toMatchObject({ kind: 'differs', isWhole: false, missing: [] });
      if (!ends.includes(length)) expect(openOn(files).isSound(null)).toBe(false);
    }
  });

  test('changed, they cost at most the one record that is hit', () => {
    for (let at = from; at < bytes.length; at += 1) {
      const files = journalUpTo(5);
      files.files[0].set(bytes.with(at, (bytes[at] ?? 0) ^ 0x20));
      expect(openOn(files).compare(ledgerAt(12))).toMatchObject({
        kind: 'differs',
        isWhole: false,
      });
      const left = allIn(files);
      expect(left.length).toBeGreaterThanOrEqual(8);
      expect([5, 5, 6, 7, 8, 9, 10, 11, 12].filter((n) => !left.includes(n)).length).toBeLessThan(
        2,
      );
      expect(openOn(files).isSound(null)).toBe(false);
    }
  });

  test('a record missing in the middle is missed, though every line that is there is whole', () => {
    const ends = [9, 10].map((n) => journalUpTo(n).files[0].getSize());
    const files = journalUpTo(5);
    files.files[0].set(Uint8Array.of(...bytes.slice(0, ends[0]), ...bytes.slice(ends[1])));
    expect(openOn(files).isSound(null)).toBe(false);
    expect(allIn(files)).toEqual([5, 5, 6, 7, 8, 9, 11, 12]);
  });

  test('a record missing of those it was begun with is missed too', () => {
    const first = Buffer.from(bytes).indexOf('\n', 256) + 1;
    const files = journalUpTo(5);
    files.files[0].set(Uint8Array.of(...bytes.slice(0, 256), ...bytes.slice(first)));
    expect(openOn(files).isSound(null)).toBe(false);
    expect(openOn(files).compare(ledgerAt(11))).toMatchObject({ isWhole: false });
  });

  test('a last line that is whole and says nothing of ours is damage', () => {
    const files = journalUpTo(5);
    files.files[0].set(Uint8Array.of(...bytes, ...encodeLine({ hello: 1 })));
    expect(openOn(files).compare(ledgerAt(12))).toMatchObject({ kind: 'differs', missing: [] });
  });

  test('without its first line it is never large: there is nothing to compact it by', () => {
    const files = journalUpTo(5);
    files.files[0].set(bytes.with(3, 0));
    expect(openOn(files).isLarge()).toBe(false);
  });

  test('records missing at its end are missed by whoever knows where the database stands', () => {
    const journal = openOn(whole);
    expect(journal.isSound(ledgerAt(12))).toBe(true);
    expect(journal.isSound(ledgerAt(13))).toBe(false);
    const files = journalUpTo(12);
    const open = openOn(files);
    for (const length of [journalUpTo(11).files[0].getSize(), 256, 0]) {
      files.files[0].set(bytes.slice(0, length));
      expect(open.isSound(ledgerAt(12)), `${length} bytes`).toBe(false);
    }
  });

  test('a damaged first line costs nothing but the name of the store', () => {
    for (let at = 0; at < 256; at += 1) {
      const files = journalUpTo(5);
      files.files[0].set(bytes.with(at, (bytes[at] ?? 0) ^ 0x20));
      expect(allIn(files)).toEqual([5, 5, 6, 7, 8, 9, 10, 11, 12]);
    }
  });
});

describe('writing it anew', () => {
  test('goes to the other file, each time, and empties the one before', () => {
    const files = journalUpTo(9);
    const journal = openOn(files);
    for (const time of [1, 2, 3]) {
      journal.rewrite(STORE, { n: 9 + time, by: 'w' }, begun);
      expect(files.files.map((file) => file.getSize() > 0)).toEqual([
        time % 2 === 0,
        time % 2 === 1,
      ]);
      expect(openOn(files).compare(ledgerAt(9 + time))).toEqual({ kind: 'same' });
    }
  });

  test('when the power goes at any operation, one of the two journals is there whole', () => {
    const count = operationsOf((journal) =>
      journal.rewrite(STORE, { n: 12, by: 'w' }, [entry(12)]),
    );
    expect(count).toBeGreaterThan(4);
    for (let nth = 0; nth < count; nth += 1) {
      const files = journalUpTo(12);
      cutPowerAt(files, nth, (journal) => journal.rewrite(STORE, { n: 12, by: 'w' }, [entry(12)]));
      const left = allIn(files);
      expect([[5, 5, 6, 7, 8, 9, 10, 11, 12], [12]]).toContainEqual(left);
      expect(openOn(files).compare(ledgerAt(12))).toEqual({ kind: 'same' });
    }
  });

  test('an append that fails at any operation leaves it as it was', () => {
    const count = operationsOf((journal) => journal.append(entry(13)));
    for (let nth = 0; nth < count; nth += 1) {
      const files = journalUpTo(12);
      const journal = openOn(files);
      const first = files.count();
      files.setFault((n) => {
        if (n === first + nth) throw new DOMException('no room', 'QuotaExceededError');
      });
      expect(() => journal.append(entry(13))).toThrow('no room');
      expect(openOn(files).compare(ledgerAt(12))).toEqual({ kind: 'same' });
      journal.append(entry(13));
      expect(openOn(files).compare(ledgerAt(13))).toEqual({ kind: 'same' });
    }
  });

  test('an append is flushed before it counts', () => {
    const files = journalUpTo(12);
    const done: string[] = [];
    files.setFault((_n, operation) => void done.push(operation));
    openOn(files).append(entry(13));
    expect(done).toEqual(['write', 'flush']);
  });

  test('a disk that takes only some of the bytes has failed', () => {
    const files = journalUpTo(12);
    const [file, other] = files.files;
    const full = { ...file, write: () => 3 };
    const journal = createJournalFile([full, other], DATA);
    expect(() => journal.append(entry(13))).toThrow('got 3 of');
  });

  test('what can no longer be read is not thrown away with it', () => {
    const files = journalUpTo(9);
    files.files[0].set(files.files[0].bytes().fill(7, 0, 256));
    openOn(files).rewrite(STORE, { n: 12, by: 'w' }, begun);
    expect(files.files[0].getSize()).toBeGreaterThan(256);
    expect(openOn(files).compare(ledgerAt(12))).toEqual({ kind: 'same' });
  });

  test('before it was begun nothing can be written to it', () => {
    expect(() => openOn(fakeFiles()).append(entry(1))).toThrow('wanted one begun');
  });

  function operationsOf(work: (journal: JournalFile) => void): number {
    const files = journalUpTo(12);
    const journal = openOn(files);
    const before = files.count();
    work(journal);
    return files.count() - before;
  }

  function cutPowerAt(files: FakeFiles, nth: number, work: (journal: JournalFile) => void): void {
    const journal = openOn(files);
    const first = files.count();
    files.setFault((n) => {
      if (n >= first + nth) throw new PowerCut();
    });
    expect(() => work(journal)).toThrow(PowerCut);
    files.setFault(() => undefined);
  }
});

describe('growing', () => {
  const draft = (n: number): Op => ({
    kind: 'record',
    record: { ...sampleRecord('draft', 'one'), body: { plan: 'x'.repeat(5_000), n } },
  });

  test('a draft typed 5,000 times is kept once when it is compacted, with everything else', () => {
    const files = journalUpTo(9);
    const journal = openOn(files);
    let largest = 0;
    for (let n = 10; n < 5_010; n += 1) {
      journal.append(entry(n, draft(n)));
      if (journal.isLarge()) journal.compact();
      largest = Math.max(largest, ...files.files.map((file) => file.getSize()));
    }
    expect(largest).toBeLessThan(1_100_000);
    const found = openOn(files).compare(null);
    const kept = found.kind === 'differs' ? found.missing : [];
    expect(kept.filter(({ op }) => op.kind === 'events')).toHaveLength(4);
    expect(kept.at(-1)?.op).toEqual(draft(5_009));
    expect(openOn(files).compare(ledgerAt(5_009))).toEqual({ kind: 'same' });
    expect(openOn(files).isSound(null)).toBe(true);
  });

  test('a log, of which nothing is ever out of date, is compacted less and less often', () => {
    const files = journalUpTo(9);
    const journal = openOn(files);
    let times = 0;
    for (let n = 10; n < 30_000; n += 1) {
      journal.append(entry(n));
      if (!journal.isLarge()) continue;
      journal.compact();
      times += 1;
    }
    expect(times).toBeGreaterThan(0);
    expect(times).toBeLessThan(4);
    expect(allIn(files)).toHaveLength(2 + 29_999 - 5);
  });

  test('a damaged journal is not compacted: what was hit would be gone for good', () => {
    const files = journalUpTo(9);
    const [file] = files.files;
    file.set(file.bytes().with(400, 0));
    const before = file.bytes();
    openOn(files).compact();
    expect(file.bytes()).toEqual(before);
  });
});
