/** Blocks of a weft in words, by the names of their yarns. */
import type { Units } from '../../core/measure/length.ts';
import type { AlternationBlock, Block, Letter, SolidBlock } from '../../core/plan/plan.ts';
import { length, list } from '../format.ts';
import { t } from '../language/t.ts';

export interface NamedYarn {
  readonly letter: Letter;
  readonly name: string;
}

/** `8 picks of moss`; of a group only how often and which way round: what it holds has lines of its own. */
export function blockWords(block: Block, yarns: readonly NamedYarn[], units: Units): string {
  const words = plainWords(block, yarns, units);
  return block.name === undefined ? words : t('{name}: {words}', { name: block.name, words });
}

function plainWords(block: Block, yarns: readonly NamedYarn[], units: Units): string {
  switch (block.kind) {
    case 'solid':
      return t('{extent} of {yarn}', {
        extent: extentWords(block, units),
        yarn: nameOf(yarns, block.yarn),
      });
    case 'alternation': {
      const isRound = block.path === 'round';
      const turns = isRound ? fromOpening(block) : block.cycle;
      const cycle = turns.map((it) => `${nameOf(yarns, it.yarn)} ${it.picks}`);
      const first = turns[0]?.yarn;
      const words = t(
        '{way, select, round {{yarns} in turn, {extent}} other {{yarns} there and back, {extent}}}',
        { way: block.path, yarns: list(cycle), extent: extentWords(block, units) },
      );
      return block.opens === first
        ? words
        : t('{words}, {yarn} first', { words, yarn: nameOf(yarns, block.opens) });
    }
    case 'free':
      return block.loomLength === undefined
        ? t('by eye')
        : t('about {length} by eye', { length: length(block.loomLength, units) });
    case 'repeat':
      return t('{n, plural, one {# time} other {# times}}', { n: block.times });
    case 'mirror':
      return block.centre === 'shared'
        ? t('there and back')
        : t('there and back, the middle twice');
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
      return t('{n, plural, one {# pick} other {# picks}}', { n: extent.picks });
    case 'turns':
      return t('{n, plural, one {# turn} other {# turns}}', { n: extent.turns });
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
