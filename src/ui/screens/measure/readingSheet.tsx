/** One size of one piece: what was read of it, one reading more, or one less. */
import { useState } from 'preact/hooks';
import type { ClothReadState } from '../../../core/bench/events.ts';
import type { Read, StateReadings } from '../../../core/learn/readings.ts';
import type { Mm, Units } from '../../../core/measure/length.ts';
import type { Grams } from '../../../core/measure/mass.ts';
import { type ClothSizes, readCloth, strike } from '../../clothReading.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { mass } from '../../mass.ts';
import '../../style/padForm.css';
import { LengthPad } from '../../parts/lengthPad.tsx';
import { MassPad } from '../../parts/massPad.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { CARE, HOW, type SizeName } from './words.ts';

/** What is being read. */
export interface ReadPlace {
  readonly piece: number;
  readonly state: ClothReadState;
  readonly size: SizeName;
}

export interface ReadingSheetProps {
  readonly place: ReadPlace;
  readonly name: string;
  readonly readings: StateReadings;
  readonly units: Units;
  readonly onClose: () => void;
}

export function ReadingSheet({ place, name, readings, units, onClose }: ReadingSheetProps) {
  const { piece, state, size } = place;
  const title = t(
    '{name}: {size, select, length {length} width {width} fringe {fringe} other {weight}}, {state, select, loom {on the loom} off {off the loom} other {washed}}',
    { name, size, state },
  );
  const add = (what: ClothSizes) => readCloth(piece, state, what);
  const reads = (
    <ReadList label={t('Readings')} reads={readsOf(readings, size)} words={wordsFor(size, units)} />
  );
  return (
    <Sheet title={title} onClose={onClose} wide>
      <div class="pad-form">
        <div class="pad-words">
          <p>{HOW[size][state]}</p>
          {size === 'fringe' && state === 'washed' ? <Care /> : null}
          {reads}
        </div>
        {size === 'mass' ? (
          <MassForm units={units} onAdd={(grams) => add({ mass: grams })} />
        ) : (
          <LengthForm units={units} onAdd={(mm) => add(sizesOf(size, mm))} />
        )}
      </div>
    </Sheet>
  );
}

function Care() {
  return (
    <p class="care">
      {CARE.fringe} {CARE.lint}
    </p>
  );
}

export function readsOf(readings: StateReadings, size: SizeName): readonly Read<number>[] {
  switch (size) {
    case 'length':
      return readings.lengths;
    case 'width':
      return readings.widths;
    case 'fringe':
      return readings.fringes;
    case 'mass':
      return readings.mass === null ? [] : [readings.mass];
  }
}

function sizesOf(size: Exclude<SizeName, 'mass'>, mm: Mm): ClothSizes {
  switch (size) {
    case 'length':
      return { lengths: [mm] };
    case 'width':
      return { widths: [mm] };
    case 'fringe':
      return { fringe: mm };
  }
}

export const wordsFor = (size: SizeName, units: Units) => (value: number) =>
  size === 'mass' ? mass(value, units) : length(value, units);

interface ReadListProps<T> {
  readonly label: string;
  readonly reads: readonly Read<T>[];
  readonly words: (value: T) => string;
}

export function ReadList<T>({ label, reads, words }: ReadListProps<T>) {
  if (reads.length === 0) return null;
  return (
    <ul class="reads" aria-label={label}>
      {reads.map(({ reading, value }, n) => (
        <li key={`${reading}/${n}`}>
          <strong>{words(value)}</strong>
          <button
            type="button"
            class="button quiet"
            aria-label={t('Take out {what}', { what: words(value) })}
            onClick={() => strike(reading)}
          >
            ✕
          </button>
        </li>
      ))}
    </ul>
  );
}

/** After a reading the keypad is empty again, for the next one. */
function LengthForm({ units, onAdd }: { readonly units: Units; readonly onAdd: (mm: Mm) => void }) {
  const [mm, setMm] = useState<Mm | null>(null);
  const [times, setTimes] = useState(0);
  return (
    <div class="pad-typed">
      <LengthPad key={times} units={units} onLength={setMm} />
      <div class="pad-save">
        <button
          type="button"
          class="button strong"
          disabled={mm === null}
          onClick={() => {
            if (mm === null) return;
            onAdd(mm);
            setMm(null);
            setTimes(times + 1);
          }}
        >
          {t('Add this reading')}
        </button>
      </div>
    </div>
  );
}

function MassForm({
  units,
  onAdd,
}: {
  readonly units: Units;
  readonly onAdd: (grams: Grams) => void;
}) {
  const [grams, setGrams] = useState<Grams | null>(null);
  return (
    <div class="pad-typed">
      <MassPad units={units} grams={null} onGrams={setGrams} />
      <div class="pad-save">
        <button
          type="button"
          class="button strong"
          disabled={grams === null || grams === 0}
          onClick={() => grams !== null && onAdd(grams)}
        >
          {t('Keep this weight')}
        </button>
      </div>
    </div>
  );
}
