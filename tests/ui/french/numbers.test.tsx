// @vitest-environment happy-dom
import './speaksFrench.ts';
import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import fc from 'fast-check';
import { useState } from 'preact/hooks';
import { afterEach, describe, expect, it } from 'vitest';
import type { YarnCount } from '../../../src/core/measure/yarnCount.ts';
import { DECIMAL, inOurNumbers } from '../../../src/ui/format.ts';
import { language, t } from '../../../src/ui/language/t.ts';
import { CountField } from '../../../src/ui/parts/countField.tsx';
import { LengthField } from '../../../src/ui/parts/lengthField.tsx';
import { LengthPad } from '../../../src/ui/parts/lengthPad.tsx';
import { MassField } from '../../../src/ui/parts/massField.tsx';
import { MassPad } from '../../../src/ui/parts/massPad.tsx';
import { NumberField } from '../../../src/ui/parts/numberField.tsx';
import { yardageWords } from '../../../src/ui/parts/yarnWords.ts';

afterEach(cleanup);

const input = () => screen.getByRole<HTMLInputElement>('textbox');

async function type(text: string): Promise<void> {
  await fireEvent.input(input(), { target: { value: text } });
  await fireEvent.blur(input());
}

/** A field over a value of its own; the last value it told. */
function number(starting: number): () => number {
  let told = starting;
  function Held() {
    const [value, setValue] = useState(starting);
    told = value;
    return <NumberField label="n" value={value} least={0} most={200} onValue={setValue} />;
  }
  render(<Held />);
  return () => told;
}

function length(starting: number, units: 'inch' | 'metric'): () => number {
  let told = starting;
  function Held() {
    const [mm, setMm] = useState(starting);
    told = mm;
    return <LengthField label="l" mm={mm} units={units} onLength={setMm} />;
  }
  render(<Held />);
  return () => told;
}

function mass(starting: number | null, units: 'inch' | 'metric'): () => number | null {
  let told = starting;
  function Held() {
    const [grams, setGrams] = useState(starting);
    told = grams;
    return <MassField label="m" grams={grams} units={units} onGrams={setGrams} />;
  }
  render(<Held />);
  return () => told;
}

function yarnCount(starting: YarnCount): () => YarnCount {
  let told = starting;
  function Held() {
    const [count, setCount] = useState(starting);
    told = count;
    return <CountField count={count} onCount={setCount} />;
  }
  render(<Held />);
  return () => told;
}

describe('in French', () => {
  it('a decimal mark is a comma', () => {
    expect(language).toBe('fr');
    expect(DECIMAL).toBe(',');
    expect(inOurNumbers('12.5 in, 0.95')).toBe('12,5 in, 0,95');
  });

  it.each(['6,5', '6.5', ' 6,5 '])('a number is typed as %j, and shown as 6,5', async (typed) => {
    const told = number(12.5);
    expect(input().value).toBe('12,5');
    await type(typed);
    expect(told()).toBe(6.5);
    expect(input().value).toBe('6,5');
  });

  it.each([
    ['6,5', 65],
    ['6.5', 65],
    ['6,5 cm', 65],
    ['1,2 m', 1200],
  ])('a length is typed as %j', async (typed, mm) => {
    const told = length(125, 'metric');
    expect(input().value).toBe('12,5 cm');
    await type(typed);
    expect(told()).toBeCloseTo(mm, 9);
    expect(screen.queryByRole('alert')).toBeNull();
  });

  it('a length in inches takes fractions, and a comma', async () => {
    const told = length(63.5, 'inch');
    expect(input().value).toBe('2½ in');
    await type('3,25');
    expect(told()).toBeCloseTo(3.25 * 25.4, 9);
    expect(input().value).toBe('3¼ in');
  });

  it.each([
    ['3,5 oz', 'metric', 3.5 * 28.349523125],
    ['3.5', 'inch', 3.5 * 28.349523125],
    ['3,5', 'inch', 3.5 * 28.349523125],
    ['62,5 g', 'metric', 62.5],
  ] as const)('a weight is typed as %j', async (typed, units, grams) => {
    const told = mass(null, units);
    await type(typed);
    expect(told()).toBeCloseTo(grams, 6);
    expect(input().value).not.toContain('.');
  });

  it('a weight is shown with a comma, and reads back', async () => {
    const told = mass(1234, 'metric');
    expect(input().value).toBe('1,234 kg');
    await type('1,235 kg');
    expect(told()).toBe(1235);
    expect(input().value).toBe('1,235 kg');
  });

  it.each(['74,5', '74.5'])(
    'the count of a yarn is typed as %j, and shown as 74,5',
    async (typed) => {
      const told = yarnCount({ system: 'tex', number: 37.5, plies: 1 });
      expect(input().value).toBe('37,5');
      await type(typed);
      expect(told().number).toBe(74.5);
      expect(input().value).toBe('74,5');
    },
  );

  it.each(['inch', 'metric'] as const)('the keypads of %s have a comma', (units) => {
    render(<LengthPad units={units} onLength={() => {}} />);
    render(<MassPad units={units} grams={null} onGrams={() => {}} />);
    expect(screen.getAllByRole('button', { name: ',' })).toHaveLength(2);
    expect(screen.queryByRole('button', { name: '.' })).toBeNull();
  });

  it('the keypad reads what its comma writes', async () => {
    let told: number | null = null;
    render(
      <LengthPad
        units="inch"
        onLength={(mm) => {
          told = mm;
        }}
      />,
    );
    for (const key of ['6', ',', '5'])
      await fireEvent.click(screen.getByRole('button', { name: key }));
    expect(told).toBeCloseTo(6.5 * 25.4, 9);
  });

  it('every number a field shows reads back as itself', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: 2000 }), async (tenths) => {
        const told = number(tenths / 10);
        const shown = input().value;
        await type('1');
        await type(shown);
        expect(told()).toBe(tenths / 10);
        cleanup();
      }),
      { numRuns: 40 },
    );
  });

  it('numbers over 999 have their space', () => {
    const words = t('{n, plural, one {# pick} other {# picks}}', { n: 1200 });
    expect(words).toBe('1\u202f200 duites');
    expect(yardageWords({ system: 'tex', number: 200_000, plies: 1 })).toMatch(/2,5\u00a0yd/);
  });
});
