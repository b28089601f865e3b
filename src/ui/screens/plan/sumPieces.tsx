/** Every piece in all its states, and the parts of the warp length. */
import type { Units } from '../../../core/measure/length.ts';
import type { Range } from '../../../core/plan/sureness.ts';
import type { PieceSheet } from '../../../core/planner/sheet.ts';
import { count, length, list } from '../../format.ts';
import { wishWords } from './missWords.ts';
import type { SumProps } from './sumNeeds.tsx';
import { Figure } from './sumPanel.tsx';

export function PiecesSum({ plan, sheet }: SumProps) {
  return (
    <>
      <section aria-label="Sizes of the pieces">
        <h3>Pieces</h3>
        <ul class="needs">
          {[...alike({ plan, sheet })].map(([words, names]) => (
            <PieceRow key={words} names={names} words={words} />
          ))}
        </ul>
      </section>
      <WarpSum plan={plan} sheet={sheet} />
    </>
  );
}

/** Pieces of one size, told once: their words and their names. */
function alike({ plan, sheet }: SumProps): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, readonly string[]>();
  for (const piece of sheet.pieces) {
    const words = pieceWords(plan, piece);
    found.set(words, [...(found.get(words) ?? []), plan.pieces[piece.piece]?.name ?? '']);
  }
  return found;
}

interface PieceRowProps {
  readonly names: readonly string[];
  /** A line each: the finished length, the other states, the wish. */
  readonly words: string;
}

function PieceRow({ names, words }: PieceRowProps) {
  const [finished, ...others] = words.split('\n');
  return (
    <li class="need">
      <p>
        <strong>
          {list(names)}: {finished}
        </strong>
        {others.map((line) => (
          <span key={line}>{line}</span>
        ))}
      </p>
    </li>
  );
}

function pieceWords({ units }: SumProps['plan'], piece: PieceSheet): string {
  const short = (mm: number) => length(mm, units);
  const lines = [
    `${short(piece.finishedLength)} finished`,
    `${short(piece.washedLength)} washed${likelyWords(piece.washedRange, units)}, ${short(piece.offLength)} off the loom`,
    `${short(piece.loomLength)} on the loom, ${count(piece.picks, 'pick')}`,
  ];
  return [...lines, ...(piece.wish === null ? [] : [wishWords(piece.wish.miss, units)])].join('\n');
}

/** Nine in ten; only what was learnt can say so. */
function likelyWords(range: Range | null, units: Units): string {
  return range === null
    ? ''
    : ` (likely ${length(range.from, units)} to ${length(range.to, units)})`;
}

function WarpSum({ plan, sheet }: SumProps) {
  const short = (mm: number) => length(mm, plan.units);
  const { warpLength } = sheet;
  return (
    <section aria-label="Warp length">
      <h3>Warp</h3>
      <dl class="figures">
        <Figure name="Front" value={short(warpLength.front + warpLength.firstFringe)} />
        <Figure name="Taken by the cloth" value={short(warpLength.woven)} />
        {plan.pieces.length < 2 ? null : (
          <Figure name={count(plan.pieces.length - 1, 'gap')} value={short(warpLength.gaps)} />
        )}
        <Figure name="Back" value={short(warpLength.back + warpLength.lastFringe)} />
        <Figure name="Exactly" value={short(warpLength.exact)} />
        <Figure name="Wound" value={length(warpLength.wound, plan.units, 'long')} />
        {sheet.widths.washedRange === null ? null : (
          <Figure
            name="Washed width"
            value={`${short(sheet.widths.washed)}${likelyWords(sheet.widths.washedRange, plan.units)}`}
          />
        )}
        <Figure name="Cloth" value={`${Math.round(sheet.cloth.gramsPerSquareMetre)} g/m²`} />
      </dl>
      <p>{dentWords(plan, sheet)}</p>
    </section>
  );
}

function dentWords(plan: SumProps['plan'], { dents }: SumProps['sheet']): string {
  if (!dents.fits) return `The warp is wider than the loom by ${length(-dents.room, plan.units)}.`;
  if (dents.firstSlot !== null) {
    return `Centred when the first slot taken is slot ${dents.firstSlot + 1} from the left; ${dents.used} of ${dents.onLoom} slots and holes are used.`;
  }
  return `Centred when the first end goes into dent ${dents.first + 1} from the left; ${dents.used} of ${dents.onLoom} dents are used.`;
}
