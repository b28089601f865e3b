import { describe, expect, test } from 'vitest';
import type { Ledger } from '../../src/store/op.ts';
import { createWitness } from '../../src/store/witness.ts';

const LEDGER: Ledger = { store: 's', n: 7, by: 'w', flushed: 6, events: 5, warps: 1 };
const SEEN = { store: 's', n: 7, by: 'w', events: 5, warps: 1 };
const LOSS = { was: SEEN, left: { events: 2, warps: 1 } };

function witnessOver(words: Readonly<Record<string, string>> = {}) {
  const map = new Map(Object.entries(words));
  const storage: unknown = {
    getItem: (key: string) => map.get(key) ?? null,
    setItem: (key: string, value: string) => void map.set(key, value),
  };
  return createWitness(() => storage as Storage);
}

describe('the witness', () => {
  test('says what was saved last and what was lost, until it is told to forget', () => {
    const witness = witnessOver();
    expect([witness.read(), witness.loss()]).toEqual([null, null]);
    witness.write(LEDGER);
    witness.setLoss(LOSS);
    expect([witness.read(), witness.loss()]).toEqual([SEEN, LOSS]);
    witness.forget();
    expect([witness.read(), witness.loss()]).toEqual([null, null]);
  });

  test.each(['', '{', '3', 'null', '[]', '{"store":1}', '{"store":"s","n":7,"events":"5"}'])(
    'that says %j has seen nothing, and nothing is told to be lost',
    (words) => {
      const witness = witnessOver({ 'fellmark-saved': words, 'fellmark-lost': words });
      expect([witness.read(), witness.loss()]).toEqual([null, null]);
    },
  );

  test('tells no loss that does not say what was there', () => {
    const words = JSON.stringify({ was: { n: 'seven' }, left: LOSS.left });
    expect(witnessOver({ 'fellmark-lost': words }).loss()).toBeNull();
  });

  test('is done without where there is no place for it', () => {
    const witness = createWitness(() => {
      throw new DOMException('not here', 'SecurityError');
    });
    witness.write(LEDGER);
    witness.setLoss(LOSS);
    expect([witness.read(), witness.loss()]).toEqual([null, null]);
  });
});
