/** Blocks under each other, groups with what they hold, each with the swatches of its yarns. */
import type { Units } from '../../core/measure/length.ts';
import type { Block, Yarn } from '../../core/plan/plan.ts';
import '../style/blockLines.css';
import { blockWords, lettersOf } from './blockWords.ts';
import { Swatch } from './swatch.tsx';

export interface BlockLinesProps {
  readonly blocks: readonly Block[];
  readonly yarns: readonly Yarn[];
  readonly units: Units;
}

export function BlockLines({ blocks, yarns, units }: BlockLinesProps) {
  return (
    <ul class="block-lines">
      {blocks.map((block, i) => (
        <li key={`${i} ${block.kind}`}>
          <BlockLine block={block} yarns={yarns} units={units} />
          {block.kind === 'repeat' || block.kind === 'mirror' ? (
            <BlockLines blocks={block.of} yarns={yarns} units={units} />
          ) : null}
        </li>
      ))}
    </ul>
  );
}

interface LineProps extends Omit<BlockLinesProps, 'blocks'> {
  readonly block: Block;
}

/** One block in a line; a group has no swatches of its own. */
export function BlockLine({ block, yarns, units }: LineProps) {
  const isGroup = block.kind === 'repeat' || block.kind === 'mirror';
  const letters = isGroup ? [] : lettersOf(block);
  return (
    <span class="block-line">
      {letters.map((letter) => {
        const yarn = yarns.find((it) => it.letter === letter);
        return yarn === undefined ? null : <Swatch key={letter} yarn={yarn} />;
      })}
      <span>{sentence(blockWords(block, yarns, units))}</span>
    </span>
  );
}

const sentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
