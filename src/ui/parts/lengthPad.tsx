/** A length on our own keypad: inches with eighths, or centimetres with millimetres after the decimal mark. */
import { useState } from 'preact/hooks';
import type { Mm, Units } from '../../core/measure/length.ts';
import { parseLength } from '../../core/measure/lengthText.ts';
import { DECIMAL, length } from '../format.ts';
import { Keypad } from './keypad.tsx';

export interface LengthPadProps {
  readonly units: Units;
  readonly onLength: (mm: Mm | null) => void;
}

const EIGHTHS = ['⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'] as const;

export function LengthPad({ units, onLength }: LengthPadProps) {
  const [typed, setTyped] = useState('');
  const type = (next: string) => {
    setTyped(next);
    const read = parseLength(next, units);
    onLength(read.ok && read.value > 0 ? read.value : null);
  };
  return (
    <Keypad
      typed={typed}
      shown={shown(typed, units)}
      decimal={DECIMAL}
      fractions={units === 'inch' ? EIGHTHS : []}
      onType={type}
    />
  );
}

function shown(typed: string, units: Units): string {
  const unit = units === 'inch' ? 'in' : 'cm';
  if (typed === '') return `– ${unit}`;
  const read = parseLength(typed, units);
  return read.ok && !/[.,]$/.test(typed)
    ? `${typed} ${unit} = ${length(read.value, units === 'inch' ? 'metric' : 'inch')}`
    : `${typed} ${unit}`;
}
