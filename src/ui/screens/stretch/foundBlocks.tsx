/** The blocks recognised in the cloth: one tap chooses a block, or a group of them. */

import type { FoundBlock } from '../../../core/bench/byEye/choosing.ts';
import { type Stretch, stretchLength } from '../../../core/bench/byEye/stretch.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { BlockLine } from '../../parts/blockLines.tsx';
import type { Session } from '../../state.ts';

export interface FoundBlocksProps {
  readonly now: Session;
  readonly found: readonly FoundBlock[];
  /** All of the weft that is woven. */
  readonly weft: Stretch;
  readonly stretch: Stretch;
  readonly onStretch: (stretch: Stretch) => void;
}

export function FoundBlocks({ now, found, weft, stretch, onStretch }: FoundBlocksProps) {
  return (
    <section class="found" aria-label={t('Blocks found in it')}>
      <h2>{t('Found in it')}</h2>
      <button
        type="button"
        class="button found-block"
        aria-pressed={isSame(weft, stretch)}
        onClick={() => onStretch(weft)}
      >
        <span class="block-line">{t('All that is woven')}</span>
        <span class="found-size">{sizeWords(now, weft)}</span>
      </button>
      <ol class="found-list">
        {found.map((it) => (
          <li key={`${it.from} ${it.to} ${it.depth}`} style={{ marginInlineStart: indent(it) }}>
            <button
              type="button"
              class="button found-block"
              aria-pressed={isSame(it, stretch)}
              onClick={() => onStretch(it)}
            >
              <BlockLine block={it.block} yarns={now.plan.yarns} units={now.plan.units} />
              <span class="found-size">{sizeWords(now, it)}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

const isSame = (a: Stretch, b: Stretch) => a.from === b.from && a.to === b.to;

/** Deep groups would leave no room for words. */
const indent = ({ depth }: FoundBlock) => `${0.9 * Math.min(depth, 3)}rem`;

function sizeWords({ progress, plan }: Session, stretch: Stretch): string {
  const long = stretchLength(progress.course, stretch);
  return t('{n, plural, one {# pick} other {# picks}}, {long}', {
    n: stretch.to - stretch.from,
    long: length(long, plan.units),
  });
}
