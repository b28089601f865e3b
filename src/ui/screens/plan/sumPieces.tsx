/** Every piece in all its states, and the parts of the warp length. */
import { count, length } from '../../format.ts';
import type { SumProps } from './sumNeeds.tsx';
import { Figure } from './sumPanel.tsx';

export function PiecesSum({ plan, sheet }: SumProps) {
  const short = (mm: number) => length(mm, plan.units);
  const { warpLength } = sheet;
  return (
    <>
      <section aria-label="Pieces">
        <h3>Pieces</h3>
        <section class="scroll-x" aria-label="Lengths of the pieces">
          <table>
            <thead>
              <tr>
                <th scope="col">Piece</th>
                <th scope="col">picks</th>
                <th scope="col">loom</th>
                <th scope="col">off</th>
                <th scope="col">washed</th>
                <th scope="col">finished</th>
                <th scope="col">wish</th>
              </tr>
            </thead>
            <tbody>
              {sheet.pieces.map((piece) => (
                <tr key={piece.piece}>
                  <th scope="row">{plan.pieces[piece.piece]?.name}</th>
                  <td>{piece.picks}</td>
                  <td>{short(piece.loomLength)}</td>
                  <td>{short(piece.offLength)}</td>
                  <td>{short(piece.washedLength)}</td>
                  <td>{short(piece.finishedLength)}</td>
                  <td>{piece.wish === null ? '' : missWords(piece.wish.miss, short)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      </section>
      <section aria-label="Warp length">
        <h3>Warp</h3>
        <dl class="figures">
          <Figure name="Front" value={short(warpLength.front + warpLength.firstFringe)} />
          <Figure name="Taken by the cloth" value={short(warpLength.woven)} />
          <Figure
            name={count(Math.max(0, plan.pieces.length - 1), 'gap')}
            value={short(warpLength.gaps)}
          />
          <Figure name="Back" value={short(warpLength.back + warpLength.lastFringe)} />
          <Figure name="Exactly" value={short(warpLength.exact)} />
          <Figure name="Wound" value={length(warpLength.wound, plan.units, 'long')} />
          <Figure name="Cloth" value={`${Math.round(sheet.cloth.gramsPerSquareMetre)} g/m²`} />
        </dl>
        <p>{dentWords(plan, sheet)}</p>
      </section>
    </>
  );
}

function missWords(miss: number, short: (mm: number) => string): string {
  if (Math.abs(miss) < 1) return 'met';
  return miss > 0 ? `${short(miss)} long` : `${short(-miss)} short`;
}

function dentWords(plan: SumProps['plan'], { dents }: SumProps['sheet']): string {
  if (!dents.fits) return `The warp is wider than the loom by ${length(-dents.room, plan.units)}.`;
  if (dents.firstSlot !== null) {
    return `Centred when the first slot taken is slot ${dents.firstSlot + 1} from the left; ${dents.used} of ${dents.onLoom} slots and holes are used.`;
  }
  return `Centred when the first end goes into dent ${dents.first + 1} from the left; ${dents.used} of ${dents.onLoom} dents are used.`;
}
