/** The trade's words as the app uses them, each in a sentence or two. */
import { language, t } from '../../language/t.ts';
export interface Term {
  readonly word: string;
  readonly says: string;
  /** Words it stands beside. */
  readonly see?: readonly TermId[];
}

const terms = {
  alternation: {
    word: t('Alternation'),
    says: t(
      'Colours taking turns in the weft, each for its own number of picks: two and two, one and three, or three colours. It closes when it ends on the colour it began with.',
    ),
    see: ['turn', 'edge-end'],
  },
  beat: {
    word: t('Beat'),
    says: t(
      'How firmly each pick is pressed to the fell, so how many lie in an inch or a centimetre. No two weavers have the same, and nobody has the same all day; a reading tells the app what yours is.',
    ),
    see: ['pick', 'fell', 'tension'],
  },
  block: {
    word: t('Block'),
    says: t(
      'A stretch of weft planned as one: a solid of one colour, an alternation, or a group of blocks that repeats or comes back mirrored.',
    ),
    see: ['solid', 'alternation', 'mirror'],
  },
  carried: {
    word: t('Carried along the selvedge'),
    says: t(
      'A resting yarn that goes up the edge with the cloth instead of being cut. Over many picks it is caught round the working yarn, so that no long loop hangs at the selvedge.',
    ),
    see: ['parked', 'selvedge'],
  },
  'draw-in': {
    word: t('Draw-in'),
    says: t(
      'How much narrower the cloth is at the fell than the warp in the heddle, because the weft pulls the edges in. A slack arc of weft before beating keeps it small.',
    ),
    see: ['selvedge', 'fell'],
  },
  due: {
    word: t('Due'),
    says: t(
      'Something to do now that is not a pick: leave a tail, hemstitch, advance the warp, begin a hem, cut. A card says it and waits; picks are counted all the same.',
    ),
    see: ['tail', 'hemstitch', 'hem'],
  },
  'edge-end': {
    word: t('Edge end'),
    says: t(
      'The outermost warp end. Where a yarn comes back into the same shed it left, nothing holds it there: lock it round the resting yarn, or go round a floating selvedge.',
    ),
    see: ['selvedge', 'alternation'],
  },
  end: {
    word: t('End'),
    says: t('One thread of the warp.'),
    see: ['pick', 'sett'],
  },
  fell: {
    word: t('Fell'),
    says: t(
      'The edge of the woven cloth, where the last pick lies. Lengths at the loom are measured to it.',
    ),
    see: ['pick', 'tension'],
  },
  floating: {
    word: t('Floating selvedge'),
    says: t(
      'One more end at each edge, through no heddle and in neither shed. The shuttle goes in over it and out under it, so that every pick turns round it.',
    ),
    see: ['selvedge', 'edge-end'],
  },
  fringe: {
    word: t('Fringe and gap'),
    says: t(
      'Warp left unwoven between two pieces. Cut in the middle it is the fringe of both; twisted, it grows shorter by a tenth and more.',
    ),
    see: ['hemstitch'],
  },
  hem: {
    word: t('Hem'),
    says: t(
      'Cloth woven to be turned over and sewn, often in a thinner yarn so that it lies flat. Its length is woven in addition to what will be seen.',
    ),
    see: ['hemstitch'],
  },
  hemstitch: {
    word: t('Hemstitch'),
    says: t(
      'A row of stitches at the first or last picks that binds groups of ends, so that the weft cannot slip out. It is sewn on the loom under tension with a tail of the weft, three to four times as long as the cloth is wide.',
    ),
    see: ['tail', 'fringe'],
  },
  mirror: {
    word: t('Mirror'),
    says: t(
      'Blocks that come back in the opposite order, so that the piece reads the same from both ends. The block in the middle is woven once, or twice where you ask for it.',
    ),
    see: ['block'],
  },
  parked: {
    word: t('Parked shuttle'),
    says: t(
      'A shuttle that rests. It lies on the cloth at the side its yarn came out, the next to be used nearest to you, the last used nearest to the heddle; then all loops at the selvedge lean the same way.',
    ),
    see: ['shuttle', 'carried'],
  },
  pick: {
    word: t('Pick'),
    says: t('One passage of the weft through the shed, from one side to the other.'),
    see: ['shed', 'beat'],
  },
  pin: {
    word: t('Pin'),
    says: t(
      'A pin put into the cloth at the fell, before it winds out of sight. From there on you measure from the pin instead of from the start of the piece.',
    ),
    see: ['tape', 'tension'],
  },
  reading: {
    word: t('Reading'),
    says: t(
      'One measurement of real cloth: the fell from the start or from a pin, or a piece off the loom and washed. From readings the app learns your beat and what this cloth does.',
    ),
    see: ['tension', 'pin', 'beat'],
  },
  relax: {
    word: t('Relaxing'),
    says: t(
      'Cloth grows shorter when the tension is taken off. Measure it again when it has lain a day off the loom.',
    ),
    see: ['shrinkage', 'tension'],
  },
  selvedge: {
    word: t('Selvedge'),
    says: t(
      'The edge of the cloth along the warp, where the weft turns. A floating selvedge is an extra end in neither shed, which every pick goes round.',
    ),
    see: ['edge-end', 'draw-in'],
  },
  sett: {
    word: t('Sett'),
    says: t('How many ends lie in an inch or a centimetre of the heddle or reed.'),
    see: ['end', 'slot'],
  },
  shed: {
    word: t('Shed'),
    says: t(
      'The opening between the raised and the lowered ends, through which the shuttle goes. In plain weave two take turns: up and down.',
    ),
    see: ['pick', 'slot'],
  },
  shrinkage: {
    word: t('Shrinkage'),
    says: t(
      'How much smaller the cloth is after washing. Standards write it as a change with a minus sign; the app keeps what your own washed pieces taught.',
    ),
    see: ['relax'],
  },
  shuttle: {
    word: t('Shuttle'),
    says: t('What carries the weft through the shed; here, one to each yarn.'),
    see: ['parked'],
  },
  slot: {
    word: t('Slot and hole'),
    says: t(
      'The two kinds of place in a rigid heddle. Ends in holes rise and sink with it, ends in slots stay; both count for the sett.',
    ),
    see: ['sett', 'shed'],
  },
  solid: {
    word: t('Solid'),
    says: t('A block of one colour.'),
    see: ['block'],
  },
  'take-up': {
    word: t('Take-up'),
    says: t(
      'Warp that is gone into the ups and downs of the weave: a length of cloth needs a longer length of warp.',
    ),
    see: ['waste'],
  },
  tail: {
    word: t('Tail'),
    says: t(
      'The end of a weft yarn left hanging. A short one is tucked into the next shed; a long one is for hemstitching.',
    ),
    see: ['hemstitch'],
  },
  tape: {
    word: t('Tape'),
    says: t(
      'A ribbon with the marks of the plan, pinned to the cloth beside the weaving. Ours runs along the edge of the screen, and can be printed at true size.',
    ),
    see: ['pin'],
  },
  tension: {
    word: t('Measuring under tension'),
    says: t(
      'Reading the length with the warp as tight as for weaving. Eased, the same cloth is shorter; say which it was, and keep to one.',
    ),
    see: ['fell', 'pin', 'relax'],
  },
  turn: {
    word: t('Turn'),
    says: t('One go of one colour in an alternation, from its first pick to its last.'),
    see: ['alternation', 'pick'],
  },
  waste: {
    word: t('Loom waste'),
    says: t(
      'Warp that cannot be woven: what is tied on in front, and what is left behind the heddle at the end.',
    ),
    see: ['take-up'],
  },
} as const satisfies Record<string, { word: string; says: string; see?: readonly string[] }>;

export type TermId = keyof typeof terms;

export const TERMS: Readonly<Record<TermId, Term>> = terms;

/** By their words, as a weaver would look them up. */
export const TERM_IDS: readonly TermId[] = (Object.keys(terms) as TermId[]).toSorted((a, b) =>
  TERMS[a].word.localeCompare(TERMS[b].word, language),
);
