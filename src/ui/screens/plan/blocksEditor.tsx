/** The weft order of a piece: rows of blocks, how they will look, and the same in one line of text. */
import { useCallback, useMemo } from 'preact/hooks';
import type { Units } from '../../../core/measure/length.ts';
import { formatBlocks, parseBlocks } from '../../../core/plan/orderText.ts';
import type { AlternationBlock, Block, Letter, Yarn } from '../../../core/plan/plan.ts';
import { type Beat, blockSize, weftBands } from '../../../core/planner/orderBands.ts';
import { draft } from '../../draft.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { extentWords } from '../../parts/blockWords.ts';
import { BlockFields } from './rows/fields/blockFields.tsx';
import { groupWords } from './rows/fields/groupFields.tsx';
import { OrderEditor } from './rows/orderEditor.tsx';
import { type RowTrade, type RowWords, yarnOf } from './rows/orderRows.ts';
import { freshYarns } from './stripesEditor.tsx';

export interface BlocksEditorProps {
  readonly blocks: readonly Block[];
  readonly yarns: readonly Yarn[];
  readonly units: Units;
  /** Where the blocks stand in the plan: `pieces[0].weft`. */
  readonly path: string;
  /** Edits with the same `about` in a row are one step to undo; each with null is one of its own. */
  readonly onChange: (blocks: readonly Block[], about: string | null) => void;
}

/** Where no plan is being edited: ten picks to the inch. */
const USUAL_SPACING = 2.54;

export function BlocksEditor({ blocks, yarns, units, path, onChange }: BlocksEditorProps) {
  const pickSpacing = draft.value?.plan.weaving.pickSpacing ?? USUAL_SPACING;
  const trade = useMemo(() => tradeIn({ yarns, pickSpacing }, units), [yarns, pickSpacing, units]);
  const format = useCallback((it: readonly Block[]) => formatBlocks(it, units), [units]);
  const parse = useCallback(
    (text: string, before: readonly Block[]) => parseBlocks(text, units, before),
    [units],
  );
  return (
    <OrderEditor
      rows={blocks}
      yarns={yarns}
      path={path}
      onChange={onChange}
      trade={trade}
      thread="pick"
      hint={HINTS[units]}
      format={format}
      parse={parse}
    />
  );
}

const HINTS: Record<Units, string> = {
  inch: t(
    'For example: 2½ in A, 24 picks B, 3 in of (2 A, 2 B) from B to B, mirror (1 in A, 2 in B).',
  ),
  metric: t(
    'For example: 6 cm A, 24 picks B, 8 cm of (2 A, 2 B) from B to B, mirror (3 cm A, 5 cm B).',
  ),
};

function tradeIn(beat: Beat, units: Units): RowTrade<Block> {
  const { yarns } = beat;
  return {
    words: (block) => wordsOf(block, beat, units),
    bands: (blocks) => weftBands(blocks, beat),
    fields: (block, path, set) => (
      <BlockFields block={block} beat={beat} units={units} path={path} set={set} />
    ),
    lone: { words: t('By eye'), make: () => free(units) },
    wrap: (kind, of) =>
      kind === 'repeat' ? { kind, times: 2, of } : { kind, centre: 'shared', of },
    make: (kind, before) => {
      const seen = before === undefined ? undefined : weftBands([before], beat)?.at(-1)?.yarn;
      const [one, two] = freshYarns(yarns, seen);
      const both = [solid(one, units), solid(two, units)];
      switch (kind) {
        case 'solid':
          return solid(one, units);
        case 'alternation':
          return alternation(one, two, units);
        case 'repeat':
          return { kind, times: 2, of: both };
        case 'mirror':
          return { kind, centre: 'shared', of: both };
      }
    },
  };
}

/** About as long as a stripe or two, so that the warp is reckoned long enough for something. */
function free(units: Units): Block {
  return { kind: 'free', loomLength: units === 'inch' ? 6 * 25.4 : 150 };
}

/** Two inches or five centimetres: enough to be seen, and changed in a few touches. */
function startingExtent(units: Units) {
  return { kind: 'length', loomLength: units === 'inch' ? 50.8 : 50 } as const;
}

function solid(yarn: Letter, units: Units): Block {
  return { kind: 'solid', yarn, extent: startingExtent(units) };
}

/** Opens and closes on the yarn that does not melt into the row before. */
function alternation(one: Letter, two: Letter, units: Units): AlternationBlock {
  const cycle = [one, two].map((yarn) => ({ yarn, picks: 2 }));
  const extent = startingExtent(units);
  return { kind: 'alternation', cycle, path: 'round', opens: one, closes: one, extent };
}

function wordsOf(block: Block, beat: Beat, units: Units): RowWords {
  switch (block.kind) {
    case 'solid':
      return {
        turns: [{ yarn: block.yarn, count: null }],
        main: extentWords(block, units),
        more: block.name ?? yarnOf(beat.yarns, block.yarn).name,
      };
    case 'alternation':
      return {
        turns: block.cycle.map(({ yarn, picks }) => ({ yarn, count: picks })),
        main: extentWords(block, units),
        more: [block.name ?? '', alternationWords(block, beat)]
          .filter((it) => it !== '')
          .join(', '),
      };
    case 'free':
      return {
        turns: [],
        main:
          block.loomLength === undefined
            ? t('By eye')
            : t('About {length}', { length: length(block.loomLength, units) }),
        more:
          block.name ?? (block.loomLength === undefined ? t('as long as you like') : t('by eye')),
      };
    case 'repeat':
    case 'mirror': {
      const words = groupWords(block, block.of.length);
      return block.name === undefined ? words : { ...words, more: `${block.name}, ${words.more}` };
    }
  }
}

/** `15 turns, B to B` */
function alternationWords(block: AlternationBlock, beat: Beat): string {
  const size = block.extent.kind === 'turns' ? null : blockSize(block, beat);
  const ends =
    block.closes === undefined
      ? t('from {yarn}', { yarn: block.opens })
      : t('{opens} to {closes}', { opens: block.opens, closes: block.closes });
  return size === null
    ? ends
    : t('{n, plural, one {# turn} other {# turns}}, {ends}', { n: size.turns, ends });
}
