/** The motif a piece ends with: what would come next if its weft simply went on. */
import { type LaidBlock, picksOf } from '../../plan/blocks.ts';
import type { Plan } from '../../plan/plan.ts';

export interface Motif {
  /** One motif; the next one is the same again. */
  readonly laid: readonly LaidBlock[];
  /** It is the period of the last block, which goes on, instead of blocks of its own. */
  readonly goesOn: boolean;
}

/**
 * What comes after the weft of a piece: one period more of a last alternation, one time round more of
 * a last repeat, else the smallest tail that the weft ends with twice, else, where the weft ends as it
 * began, all but its beginning. Null where nothing repeats.
 */
export function motifAfter(plan: Plan, piece: number, weft: readonly LaidBlock[]): Motif | null {
  const blocks = plan.pieces[piece]?.weft ?? [];
  const at = blocks.length - 1;
  const path = `pieces[${piece}].weft[${at}]`;
  const last = weft[weft.length - 1];
  if (blocks[at]?.kind === 'alternation' && last?.source === path && last.turns > 0)
    return { laid: [nextPeriod(last)], goesOn: true };
  const laid =
    blocks[at]?.kind === 'repeat' ? usualPass(passesOf(weft, path)) : repeatingTail(weft);
  return laid === null ? null : { laid, goesOn: false };
}

function nextPeriod(laid: LaidBlock): LaidBlock {
  const turns = laid.period.yarns.length;
  return { ...laid, firstTurn: (laid.firstTurn + laid.turns) % turns, turns, lastTurnPicks: null };
}

export interface PassPlace {
  /** Index among the laid blocks of its first one, and of the one after its last. */
  readonly from: number;
  readonly to: number;
  readonly laid: readonly LaidBlock[];
}

/** The times round of the repeat at a path of the plan, in weaving order. */
export function passesOf(weft: readonly LaidBlock[], path: string): readonly PassPlace[] {
  const passes: PassPlace[] = [];
  for (const [i, laid] of weft.entries()) {
    if (!laid.source.startsWith(`${path}.of[`)) continue;
    const last = passes[passes.length - 1];
    if (last?.to === i && last.laid[0]?.passes[0]?.index === laid.passes[0]?.index)
      passes[passes.length - 1] = { ...last, to: i + 1, laid: [...last.laid, laid] };
    else passes.push({ from: i, to: i + 1, laid: [laid] });
  }
  return passes;
}

/** The last time round that has as many picks as most have: one cut short by hand is no motif. */
export function usualPass(passes: readonly PassPlace[]): readonly LaidBlock[] | null {
  const sizes = passes.map(({ laid }) => laid.reduce((sum, it) => sum + picksOf(it), 0));
  const often = new Map<number, number>();
  for (const size of sizes) often.set(size, (often.get(size) ?? 0) + 1);
  let best = -1;
  for (const [i, size] of sizes.entries()) {
    const most = often.get(sizes[best] ?? 0) ?? 0;
    if (size > 0 && (often.get(size) ?? 0) >= most) best = i;
  }
  return passes[best]?.laid ?? null;
}

/** One time round more, told apart from those there are. */
export function asPass(laid: readonly LaidBlock[], more: number): readonly LaidBlock[] {
  return laid.map((it) => {
    const [first, ...rest] = it.passes;
    if (first === undefined) return it;
    return { ...it, passes: [{ ...first, index: first.of + more }, ...rest] };
  });
}

function repeatingTail(weft: readonly LaidBlock[]): readonly LaidBlock[] | null {
  const woven = weft.filter((it) => it.turns > 0);
  const n = woven.length;
  const repeats = (period: number, over: number) => {
    for (let i = n - 1; i >= n - over; i--) {
      const [one, before] = [woven[i], woven[i - period]];
      if (one === undefined || before === undefined || !isAlike(one, before)) return false;
    }
    return true;
  };
  for (let period = 1; 2 * period <= n; period++)
    if (repeats(period, period)) return woven.slice(n - period);
  for (let period = 1; period < n; period++)
    if (repeats(period, n - period)) return woven.slice(n - period);
  return null;
}

/** Blocks of one size in the plan differ by no more than this in picks once aimed at a real beat (ours). */
const ALIKE = 0.15;

/** The same yarns in the same turns, and as long, but for what aiming at the beat makes of it. */
export function isAlike(one: LaidBlock, other: LaidBlock): boolean {
  if (!isSameOrder(one, other)) return false;
  const [a, b] = [picksOf(one), picksOf(other)];
  return Math.abs(a - b) <= ALIKE * Math.max(a, b);
}

function isSameOrder(one: LaidBlock, other: LaidBlock): boolean {
  const length = one.period.yarns.length;
  if (length !== other.period.yarns.length) return false;
  for (let k = 0; k < length; k++) {
    const [a, b] = [(one.firstTurn + k) % length, (other.firstTurn + k) % length];
    if (one.period.yarns[a] !== other.period.yarns[b]) return false;
    if (length > 1 && one.period.picks[a] !== other.period.picks[b]) return false;
  }
  return true;
}
