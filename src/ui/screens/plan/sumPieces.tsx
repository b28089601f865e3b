/** Every piece in all its states, and the parts of the warp length. */
import type { Units } from '../../../core/measure/length.ts';
import type { Range } from '../../../core/plan/sureness.ts';
import type { PieceSheet } from '../../../core/planner/sheet.ts';
import { length, list } from '../../format.ts';
import { t } from '../../language/t.ts';
import { wishWords } from './missWords.ts';
import type { SumProps } from './sumNeeds.tsx';
import { Figure } from './sumPanel.tsx';

export function PiecesSum({ plan, sheet }: SumProps) {
  return (
    <>
      <section aria-label={t('Sizes of the pieces')}>
        <h3>{t('Pieces')}</h3>
        <ul class="needs">
          {alike({ plan, sheet }).map(({ first, names, words }) => (
            <PieceRow key={first} names={names} words={words} />
          ))}
        </ul>
      </section>
      <WarpSum plan={plan} sheet={sheet} />
    </>
  );
}

interface AlikePieces {
  /** Index of the first of them. */
  readonly first: number;
  readonly names: readonly string[];
  readonly words: string;
}

/** Pieces of one size, told once. */
function alike({ plan, sheet }: SumProps): readonly AlikePieces[] {
  const found = new Map<string, AlikePieces>();
  // Pieces woven alike share their sheet: without a wish of their own they are put into words once.
  const known = new Map<object, string>();
  for (const piece of sheet.pieces) {
    const told = piece.wish ?? piece.weft;
    const words = known.get(told) ?? pieceWords(plan, piece);
    known.set(told, words);
    const { first, names } = found.get(words) ?? { first: piece.piece, names: [] };
    const name = plan.pieces[piece.piece]?.name ?? '';
    found.set(words, { first, names: [...names, name], words });
  }
  return [...found.values()];
}

interface PieceRowProps {
  readonly names: readonly string[];
  /** A line each: the finished length, the other states, the wish. */
  readonly words: string;
}

function PieceRow({ names, words }: PieceRowProps) {
  // Named, not listed: a line that changes is the same line.
  const [finished = '', washed, loom, wish] = words.split('\n');
  return (
    <li class="need">
      <p>
        <strong>{t('{name}: {words}', { name: list(names), words: finished })}</strong>
        <span>{washed}</span>
        <span>{loom}</span>
        {wish === undefined ? null : <span>{wish}</span>}
      </p>
    </li>
  );
}

function pieceWords({ units }: SumProps['plan'], piece: PieceSheet): string {
  const short = (mm: number) => length(mm, units);
  const lines = [
    t('{length} finished', { length: short(piece.finishedLength) }),
    t('{washed} washed{likely}, {off} off the loom', {
      washed: short(piece.washedLength),
      likely: likelyWords(piece.washedRange, units),
      off: short(piece.offLength),
    }),
    t('{length} on the loom, {n, plural, one {# pick} other {# picks}}', {
      length: short(piece.loomLength),
      n: piece.picks,
    }),
  ];
  return [...lines, ...(piece.wish === null ? [] : [wishWords(piece.wish.miss, units)])].join('\n');
}

/** Nine in ten; only what was learnt can say so. */
function likelyWords(range: Range | null, units: Units): string {
  return range === null
    ? ''
    : ` ${t('(likely {from} to {to})', {
        from: length(range.from, units),
        to: length(range.to, units),
      })}`;
}

function WarpSum({ plan, sheet }: SumProps) {
  const short = (mm: number) => length(mm, plan.units);
  const { warpLength } = sheet;
  return (
    <section aria-label={t('Warp length')}>
      <h3>{t('Warp')}</h3>
      <dl class="figures">
        <Figure name={t('Front')} value={short(warpLength.front + warpLength.firstFringe)} />
        <Figure name={t('Taken by the cloth')} value={short(warpLength.woven)} />
        {plan.pieces.length < 2 ? null : (
          <Figure
            name={t('{n, plural, one {# gap} other {# gaps}}', { n: plan.pieces.length - 1 })}
            value={short(warpLength.gaps)}
          />
        )}
        <Figure // Of the warp, not the way back.
          name={t('{of, select, warp {Back} other {Back}}', { of: 'warp' })}
          value={short(warpLength.back + warpLength.lastFringe)}
        />
        <Figure name={t('Exactly')} value={short(warpLength.exact)} />
        <Figure name={t('Wound')} value={length(warpLength.wound, plan.units, 'long')} />
        {sheet.widths.washedRange === null ? null : (
          <Figure
            name={t('Washed width')}
            value={`${short(sheet.widths.washed)}${likelyWords(sheet.widths.washedRange, plan.units)}`}
          />
        )}
        <Figure name={t('Cloth')} value={`${Math.round(sheet.cloth.gramsPerSquareMetre)} g/m²`} />
      </dl>
      <p>{dentWords(plan, sheet)}</p>
    </section>
  );
}

function dentWords(plan: SumProps['plan'], { dents }: SumProps['sheet']): string {
  if (!dents.fits)
    return t('The warp is wider than the loom by {length}.', {
      length: length(-dents.room, plan.units),
    });
  if (dents.firstSlot !== null) {
    return t(
      'Centred when the first slot taken is slot {slot} from the left; {used} of {all} slots and holes are used.',
      { slot: dents.firstSlot + 1, used: dents.used, all: dents.onLoom },
    );
  }
  return t(
    'Centred when the first end goes into dent {dent} from the left; {used} of {all} dents are used.',
    { dent: dents.first + 1, used: dents.used, all: dents.onLoom },
  );
}
