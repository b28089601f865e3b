/** The demos in the reader's language: what they are, and the names their plans are opened with. */
import type { Block, Letter, Plan } from '../../../core/plan/plan.ts';
import type { Demo } from '../../../demos/demos.ts';
import { t } from '../../language/t.ts';

export interface DemoNames {
  readonly plan: string;
  /** What there is to see in it. */
  readonly words: string;
  readonly notes: string;
  readonly loom: string;
  readonly yarns: Readonly<Record<Letter, string>>;
  readonly pieces: readonly string[];
  /** Of the blocks of each piece that have a name, in their order. */
  readonly blocks: readonly string[];
}

export const DEMO_NAMES: Readonly<Record<Demo['id'], DemoNames>> = {
  'moss-and-chalk': {
    plan: t('Two hand towels in moss and chalk'),
    words: t(
      'Inches, rigid heddle: hemstitched fringe, blocks by length, two-and-two alternations, mirrored.',
    ),
    notes: t(
      'Invented for trying the app: two towels in opposite colours, hemstitched, with fringe.',
    ),
    loom: t('The 24 inch loom'),
    yarns: { A: t('moss'), B: t('chalk'), C: t('rust') },
    pieces: [t('Towel one, moss on chalk'), t('Towel two, chalk on moss')],
    blocks: [],
  },
  'ink-oat-ochre': {
    plan: t('Two table runners in ink, oat and ochre'),
    words: t(
      'Centimetres, shafts: turned hems in their own yarn, three colours there and back, one and one.',
    ),
    notes: t('Invented for trying the app: runners with turned hems in a thinner yarn.'),
    loom: t('Four shafts, 70 cm'),
    yarns: { A: t('ink'), B: t('oat'), C: t('ochre'), D: t('fine oat') },
    pieces: [t('Runner one'), t('Runner two')],
    blocks: [t('three colours'), t('one and one')],
  },
};

/** A demo's plan with these names; one without a name for something keeps its own. */
export function withNames(plan: Plan, names: DemoNames): Plan {
  return {
    ...plan,
    name: names.plan,
    notes: names.notes,
    loom: { ...plan.loom, name: names.loom },
    yarns: plan.yarns.map((yarn) => ({ ...yarn, name: names.yarns[yarn.letter] ?? yarn.name })),
    pieces: plan.pieces.map((piece, i) => ({
      ...piece,
      name: names.pieces[i] ?? piece.name,
      weft: namedBlocks(piece.weft, names.blocks),
    })),
  };
}

/** The names go to the blocks that have one, in turn. */
function namedBlocks(blocks: readonly Block[], names: readonly string[]): readonly Block[] {
  let next = 0;
  return blocks.map((block) => {
    const name = block.name === undefined ? undefined : names[next++];
    return name === undefined ? block : { ...block, name };
  });
}
