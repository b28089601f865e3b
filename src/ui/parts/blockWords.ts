/** Blocks of a weft in words, by the names of their yarns. */
import type { Units } from '../../core/measure/length.ts';
import type { AlternationBlock, Block, Letter, SolidBlock } from '../../core/plan/plan.ts';
import { count, length, list } from '../format.ts';

export interface NamedYarn {
  readonly letter: Letter;
  readonly name: string;
}

/** `8 picks of moss`; of a group only how often and which way round: what it holds has lines of its own. */
export function blockWords(block: Block, yarns: readonly NamedYarn[], units: Units): string {
  const named = block.name === undefined ? '' : `${block.name}: `;
  return `${named}${plainWords(block, yarns, units)}`;
}

function plainWords(block: Block, yarns: readonly NamedYarn[], units: Units): string {
  switch (block.kind) {
    case 'solid':
      return `${extentWords(block, units)} of ${nameOf(yarns, block.yarn)}`;
    case 'alternation': {
      const isRound = block.path === 'round';
      const turns = isRound ? fromOpening(block) : block.cycle;
      const cycle = turns.map((it) => `${nameOf(yarns, it.yarn)} ${it.picks}`);
      const first = turns[0]?.yarn;
      const opens = block.opens === first ? '' : `, ${nameOf(yarns, block.opens)} first`;
      const way = isRound ? ' in turn' : ' there and back';
      return `${list(cycle)}${way}, ${extentWords(block, units)}${opens}`;
    }
    case 'free':
      return block.loomLength === undefined
        ? 'by eye'
        : `about ${length(block.loomLength, units)} by eye`;
    case 'repeat':
      return count(block.times, 'time');
    case 'mirror':
      return block.centre === 'shared' ? 'there and back' : 'there and back, the middle twice';
  }
}

/** One period from the turn it opens on. */
function fromOpening({ cycle, opens }: AlternationBlock): AlternationBlock['cycle'] {
  const at = Math.max(
    0,
    cycle.findIndex((it) => it.yarn === opens),
  );
  return [...cycle.slice(at), ...cycle.slice(0, at)];
}

/** `24 picks`, `9 turns`, `6 cm` */
export function extentWords({ extent }: SolidBlock | AlternationBlock, units: Units): string {
  switch (extent.kind) {
    case 'length':
      return length(extent.loomLength, units);
    case 'picks':
      return count(extent.picks, 'pick');
    case 'turns':
      return count(extent.turns, 'turn');
  }
}

function nameOf(yarns: readonly NamedYarn[], letter: Letter): string {
  return yarns.find((it) => it.letter === letter)?.name ?? letter;
}

/** The letters of a block's yarns, each once, in the order they come. */
export function lettersOf(block: Block): readonly Letter[] {
  switch (block.kind) {
    case 'solid':
      return [block.yarn];
    case 'alternation':
      return [...new Set([block.opens, ...block.cycle.map((it) => it.yarn)])];
    case 'free':
      return [];
    case 'repeat':
    case 'mirror':
      return [...new Set(block.of.flatMap(lettersOf))];
  }
}
