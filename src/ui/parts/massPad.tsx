/** A weight on our own keypad: grams, or ounces with quarters. */

import { useState } from 'preact/hooks';
import type { Units } from '../../core/measure/length.ts';
import { formatMass, type Grams, parseMass } from '../../core/measure/mass.ts';
import { DECIMAL, inOurNumbers } from '../format.ts';
import { Keypad } from './keypad.tsx';

export interface MassPadProps {
  readonly units: Units;
  /** What was typed before, shown until something else is. */
  readonly grams: Grams | null;
  readonly onGrams: (grams: Grams | null) => void;
}

const QUARTERS = ['¼', '½', '¾'] as const;

export function MassPad({ units, grams, onGrams }: MassPadProps) {
  const [typed, setTyped] = useState('');
  const type = (next: string) => {
    setTyped(next);
    const read = parseMass(next, units);
    onGrams(read.ok ? read.value : null);
  };
  const unit = units === 'inch' ? 'oz' : 'g';
  const before = grams === null ? `– ${unit}` : inOurNumbers(formatMass(grams, units));
  return (
    <Keypad
      typed={typed}
      shown={typed === '' ? before : `${typed} ${unit}`}
      decimal={DECIMAL}
      fractions={units === 'inch' ? QUARTERS : []}
      onType={type}
    />
  );
}
