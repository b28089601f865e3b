/** Copies of one warp that were woven on in more than one place. */
import type { WarpHead } from '../contents.ts';

/** Copies of one warp have the same family. Demo warps are never a copy of a warp of the weaver's own. */
export function familyOf({ id, demo, branchOf }: WarpHead): string {
  return `${demo ? 'demo' : 'own'} ${branchOf?.warp ?? id}`;
}

/** Families of two and more in which there is a branch the weaver has not settled yet. */
export function unsettledFamilies<W extends WarpHead>(
  warps: readonly W[],
): readonly (readonly W[])[] {
  const families = new Map<string, W[]>();
  for (const warp of warps) {
    const family = familyOf(warp);
    families.set(family, [...(families.get(family) ?? []), warp]);
  }
  return [...families.values()].filter((family) => family.length > 1 && family.some(isUnsettled));
}

function isUnsettled({ branchOf }: WarpHead): boolean {
  return branchOf !== undefined && branchOf.settled !== true;
}
