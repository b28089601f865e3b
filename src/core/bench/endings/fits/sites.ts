/** Where a weft can have a motif more or fewer: after a repeat, and at its end. */
import type { LaidBlock } from '../../../plan/blocks.ts';
import type { Plan } from '../../../plan/plan.ts';
import { asPass, isAlike, motifAfter, passesOf, usualPass } from '../motif.ts';
import { addedItem, type Item } from './items.ts';

export interface Site {
  /** The motif goes in before this item; whole motifs to come stand before it. */
  readonly at: number;
  readonly motif: readonly LaidBlock[];
  /** Numbers of items of the motifs that could be left out, the last one first. */
  readonly removable: readonly number[];
}

/** Every place of a weft, its ending hem not begun, where motifs follow each other. */
export function sitesOf(plan: Plan, piece: number, items: readonly Item[]): readonly Site[] {
  const weft = items.map((it) => it.laid);
  const repeats = (plan.pieces[piece]?.weft ?? []).flatMap((block, i) =>
    block.kind === 'repeat' ? (repeatSite(items, weft, `pieces[${piece}].weft[${i}]`) ?? []) : [],
  );
  if (repeats.some((site) => site.at === items.length)) return repeats;
  const tail = tailSite(plan, piece, items, weft);
  return tail === null ? repeats : [...repeats, tail];
}

function repeatSite(items: readonly Item[], weft: readonly LaidBlock[], path: string): Site | null {
  const passes = passesOf(weft, path);
  const motif = usualPass(passes);
  const at = passes[passes.length - 1]?.to;
  if (motif === null || at === undefined || isBegun(items.slice(at))) return null;
  const whole = passes.map(({ from, to }) => items.slice(from, to));
  const removable: number[] = [];
  for (const pass of whole.toReversed()) {
    if (isBegun(pass)) break;
    removable.push(pass.length);
  }
  return { at, motif, removable: leavingOne(items, removable) };
}

function tailSite(
  plan: Plan,
  piece: number,
  items: readonly Item[],
  weft: readonly LaidBlock[],
): Site | null {
  const motif = motifAfter(plan, piece, weft);
  if (motif === null || motif.goesOn) return null;
  const size = motif.laid.length;
  const removable: number[] = [];
  for (let to = items.length; to >= size; to -= size) {
    const last = items.slice(to - size, to);
    const isMotif = last.every(({ laid }, i) => isSameMotif(laid, motif.laid[i]));
    if (isBegun(last) || !isMotif) break;
    removable.push(size);
  }
  return { at: items.length, motif: motif.laid, removable: leavingOne(items, removable) };
}

function isSameMotif(one: LaidBlock, other: LaidBlock | undefined): boolean {
  return other !== undefined && isAlike(one, other);
}

/** A weft is never nothing. */
function leavingOne(items: readonly Item[], removable: readonly number[]): readonly number[] {
  const all = removable.reduce((sum, it) => sum + it, 0);
  return all < items.length ? removable : removable.slice(0, -1);
}

function isBegun(items: readonly Item[]): boolean {
  return items.some((it) => it.woven > 0);
}

/** The weft with motifs more, or fewer when below nought. */
export function withMotifs(items: readonly Item[], site: Site, motifs: number): readonly Item[] {
  if (motifs < 0) {
    const fewer = site.removable.slice(0, -motifs).reduce((sum, it) => sum + it, 0);
    return items.filter((_, i) => i < site.at - fewer || i >= site.at);
  }
  const more = Array.from({ length: motifs }, (_, n) => asPass(site.motif, n)).flat();
  return [...items.slice(0, site.at), ...more.map(addedItem), ...items.slice(site.at)];
}
