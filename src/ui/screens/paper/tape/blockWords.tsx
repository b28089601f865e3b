/** Beside each block: its picks or its turns, and the length reached at its end. */

import { type CourseBlock, type CoursePiece, openIn } from '../../../../core/bench/course.ts';
import type { Mm } from '../../../../core/measure/length.ts';
import { STRIP_WIDTH, yOn } from '../../../../core/paper/tape.ts';
import type { Plan } from '../../../../core/plan/plan.ts';
import { length } from '../../../format.ts';
import { t } from '../../../language/t.ts';
import { type StripProps, WORDS_LEFT } from './strip.tsx';

const LINE: Mm = 3.1;
const TYPE = 2.5;
const RIGHT = STRIP_WIDTH - 1.6;

export function BlockWords({ strip, look, piece }: StripProps & { readonly piece: CoursePiece }) {
  const { plan } = look.course;
  const known = openIn(look.course, piece) ?? Number.POSITIVE_INFINITY;
  const blocks = look.course.blocks
    .slice(piece.firstBlock, piece.firstBlock + piece.blocks)
    .filter((block) => block.firstPick <= known)
    .map((block) => ({ block, from: block.loomStart, to: endOf(block) }))
    .filter(({ from, to }) => to > strip.from + 1e-6 && from < strip.to - 1e-6);
  return (
    <>
      {blocks.map(({ block, from, to }) => {
        const top = yOn(strip, Math.min(to, strip.to));
        const foot = yOn(strip, Math.max(from, strip.from));
        const endsHere = to <= strip.to + 1e-6;
        const end = endsHere && !block.laid.isOpen ? to : null;
        const words = wordsThatFit(plan, block, end, foot - top);
        return <Words key={block.index} top={top} foot={foot} {...words} />;
      })}
    </>
  );
}

/** Of a part still to be woven by eye where it is meant to end. */
function endOf({ laid, loomStart, loomLength }: CourseBlock): Mm {
  const meant = laid.isOpen && laid.block?.kind === 'free' ? (laid.block.loomLength ?? 0) : 0;
  return loomStart + Math.max(loomLength, meant);
}

interface Fitting {
  readonly middle: readonly string[];
  readonly end: string | null;
}

/** What a block is comes before how far it goes. */
function wordsThatFit(plan: Plan, block: CourseBlock, end: Mm | null, room: Mm): Fitting {
  const most = Math.floor((room - 0.6) / LINE);
  const long = longWords(plan, block);
  const middle = long.length <= most ? long : most > 0 ? [shortWords(plan, block)] : [];
  const left = most - middle.length;
  // Two lines between them, or it would read as one.
  return { middle, end: end === null || left < 2 ? null : lengthWords(plan, end) };
}

/** The scale beside it says the unit. */
function lengthWords(plan: Plan, end: Mm): string {
  return length(end, plan.units).replace(/ [a-z]+$/, '');
}

function turnsOf({ laid }: CourseBlock) {
  const { period, firstTurn, turns } = laid;
  const many = period.yarns.length;
  return Array.from({ length: Math.min(many, turns) }, (_, k) => ({
    yarn: period.yarns[(firstTurn + k) % many] ?? 0,
    picks: period.picks[(firstTurn + k) % many] ?? 0,
  }));
}

function longWords(plan: Plan, block: CourseBlock): readonly string[] {
  const { role, turns } = block.laid;
  if (role === 'alternation') {
    const cycle = turnsOf(block).map(({ yarn, picks }) => `${plan.yarns[yarn]?.letter} ${picks}`);
    return [...cycle, t('{n} turns', { n: turns })];
  }
  const letter = turnsOf(block).map(({ yarn }) => plan.yarns[yarn]?.letter ?? '');
  if (role === 'free')
    return block.laid.isOpen ? [t('by eye')] : [t('by eye'), t('{n} picks', { n: block.picks })];
  return [`${letter.join('')} ${block.picks}`, role === 'solid' ? t('picks') : EDGES[role]];
}

const EDGES = { hem: t('hem'), zigzag: t('seam'), plain: t('seam') } as const;

function shortWords(plan: Plan, block: CourseBlock): string {
  if (block.laid.role === 'free') return t('by eye');
  const letters = turnsOf(block).map(({ yarn, picks }) => {
    const letter = plan.yarns[yarn]?.letter ?? '';
    return block.laid.role === 'alternation' ? `${letter}${picks}` : `${letter} ${block.picks}`;
  });
  return letters.join('').slice(0, 8);
}

interface WordsProps extends Fitting {
  readonly top: Mm;
  readonly foot: Mm;
}

function Words({ top, foot, middle, end }: WordsProps) {
  const first = (top + foot) / 2 - ((middle.length - 1) * LINE) / 2 + 0.9;
  return (
    <>
      {middle.map((line, i) => (
        <text key={i} x={WORDS_LEFT + 0.8} y={first + i * LINE} font-size={TYPE}>
          {line}
        </text>
      ))}
      {end === null ? null : (
        <text x={RIGHT} y={top + 3.3} font-size={TYPE} font-weight="700" text-anchor="end">
          {end}
        </text>
      )}
    </>
  );
}
