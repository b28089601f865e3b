/** One piece in all its states: what was read, what it did, and whether it counts. */
import type { ClothReadState } from '../../../core/bench/events.ts';
import { CLOTH_READ_STATES } from '../../../core/bench/events.ts';
import type { PieceFigures, PieceSizes } from '../../../core/learn/figure.ts';
import type { PieceReadings } from '../../../core/learn/readings.ts';
import { averageOf, type Size } from '../../../core/learn/sizes.ts';
import type { Units } from '../../../core/measure/length.ts';
import { dimensionalChange, takeUpFromCrimp } from '../../../core/measure/takeUp.ts';
import type { Piece } from '../../../core/plan/plan.ts';
import { learnFrom } from '../../clothReading.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { percent } from '../../percent.ts';
import { type ReadPlace, readsOf, wordsFor } from './readingSheet.tsx';
import { SIZE_WORDS, SIZES, type SizeName, STATE_WORDS, spreadWords } from './words.ts';

export interface PieceCardProps {
  readonly piece: Piece;
  readonly readings: PieceReadings;
  readonly figures: PieceFigures;
  readonly units: Units;
  readonly onRead: (place: ReadPlace) => void;
  readonly onRavel: (piece: number) => void;
}

/** What there is to read in each state. */
const READ: Record<ClothReadState, readonly SizeName[]> = {
  loom: ['length', 'width'],
  off: ['length', 'width', 'fringe', 'mass'],
  washed: ['length', 'width', 'fringe', 'mass'],
};

export function PieceCard(props: PieceCardProps) {
  const { piece, figures, readings, units, onRead } = props;
  const fringed = [piece.beginning, piece.ending].some((edge) => edge.kind === 'hemstitch');
  const sizes = SIZES.filter((size) => size !== 'fringe' || fringed);
  return (
    <article class="measured" aria-label={piece.name} data-counts={readings.counts}>
      <header class="measured-head">
        <h2>{piece.name}</h2>
        <p class="hint">
          {t('{length} wide in the reed', { length: length(figures.sizes.reedWidth, units) })}
        </p>
      </header>
      <div class="sizes">
        {CLOTH_READ_STATES.map((state) => (
          <span key={state} class="sizes-state">
            {STATE_WORDS[state]}
          </span>
        ))}
        {sizes.map((size) => (
          <div key={size} class="sizes-row">
            <span class="sizes-name">{SIZE_WORDS[size]}</span>
            {CLOTH_READ_STATES.map((state) =>
              READ[state].includes(size) ? (
                <SizeCell
                  key={state}
                  place={{ piece: figures.piece, state, size }}
                  name={piece.name}
                  readings={readings}
                  estimate={size === 'length' && state === 'loom' ? figures.sizes.loomLength : null}
                  units={units}
                  onRead={onRead}
                />
              ) : (
                <span key={state} />
              ),
            )}
          </div>
        ))}
      </div>
      <Changes sizes={figures.sizes} />
      <PieceFoot {...props} />
    </article>
  );
}

interface SizeCellProps {
  readonly place: ReadPlace;
  readonly name: string;
  readonly readings: PieceReadings;
  /** What the bench took it to be, where nobody has read it here. */
  readonly estimate: Size | null;
  readonly units: Units;
  readonly onRead: (place: ReadPlace) => void;
}

function SizeCell({ place, name, readings, estimate, units, onRead }: SizeCellProps) {
  const { state, size } = place;
  const average = averageOf(readsOf(readings.states[state], size));
  const words = wordsFor(size, units);
  const shown = cellWords({ size, average, estimate, words, units });
  return (
    <button
      type="button"
      class="button size-cell"
      data-read={average !== null}
      aria-label={t(
        '{name}, {size, select, length {length} width {width} fringe {fringe} other {weight}} {state, select, loom {on the loom} off {off the loom} other {washed}}: {value} {note}',
        { name, size, state, ...shown },
      )}
      onClick={() => onRead(place)}
    >
      <strong>{shown.value}</strong> <span>{shown.note}</span>
    </button>
  );
}

interface CellFacts {
  readonly size: ReadPlace['size'];
  readonly average: ReturnType<typeof averageOf>;
  readonly estimate: Size | null;
  readonly words: (value: number) => string;
  readonly units: Units;
}

function cellWords({ size, average, estimate, words, units }: CellFacts) {
  if (average === null) {
    return estimate === null
      ? { value: size === 'mass' ? t('Weigh') : t('Measure'), note: '' }
      : { value: words(estimate.mm), note: t('by the fell') };
  }
  const { mean, spread, times } = average;
  const note =
    spread === null
      ? ''
      : t('{times}\u00a0readings {spread}', { times, spread: spreadWords(spread, units) });
  return { value: words(mean), note };
}

/** As ISO 5077 has it: a shrinkage is negative. */
function Changes({ sizes }: { readonly sizes: PieceSizes }) {
  const both = [
    ['length', sizes.offLength, sizes.washedLength],
    ['width', sizes.offWidth, sizes.washedWidth],
  ] as const;
  const told = both.flatMap(([name, before, after]) =>
    before === null || after === null
      ? []
      : [
          t('{share} in {size, select, length {length} other {width}}', {
            share: percent(dimensionalChange(before.mm, after.mm) / 100),
            size: name,
          }),
        ],
  );
  return (
    <p class="hint">
      {told.length === 0
        ? t('Dimensional change by washing (ISO 5077): wants a size off the loom and washed.')
        : t('Dimensional change by washing (ISO 5077): {changes}.', { changes: told.join(', ') })}
    </p>
  );
}

function PieceFoot({ figures, readings, onRavel }: PieceCardProps) {
  const { crimp } = figures.figures;
  const ends = readings.ravelled.length;
  return (
    <div class="measured-foot">
      <button type="button" class="button" onClick={() => onRavel(figures.piece)}>
        {ends === 0
          ? t('One end drawn out')
          : t('{n, plural, one {# end} other {# ends}} drawn out', { n: ends })}
      </button>
      <button
        type="button"
        class="button"
        aria-pressed={readings.counts === 'in'}
        onClick={() => learnFrom(figures.piece, readings.counts === 'in' ? 'out' : 'in')}
      >
        {t('Counts for the next plans')}
      </button>
      {readings.counts === 'in' ? null : (
        <p class="hint">{t('Left out: no plan learns from it.')}</p>
      )}
      {crimp.kind === 'read' ? (
        <p class="hint">
          {t('Crimp {crimp} of the cloth, take-up {takeUp} of the yarn (ASTM D3883).', {
            crimp: percent(crimp.share),
            takeUp: percent(takeUpFromCrimp(crimp.share)),
          })}
        </p>
      ) : null}
    </div>
  );
}
