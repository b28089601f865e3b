/**
 * How colours look to eyes that lack one kind of cone: red (protan), green (deutan), blue (tritan),
 * by the filters of the colour library (Machado, Oliveira, Fernandes 2009, severity 1).
 */
import {
  filterDeficiencyDeuter,
  filterDeficiencyProt,
  filterDeficiencyTrit,
  formatHex,
} from 'culori/fn';
import { channelsOf, ciede2000, type Hex, labOf } from './colour.ts';

export const DEFICIENCIES = ['protan', 'deutan', 'tritan'] as const;
export type Deficiency = (typeof DEFICIENCIES)[number];

const FILTERS = {
  protan: filterDeficiencyProt(1),
  deutan: filterDeficiencyDeuter(1),
  tritan: filterDeficiencyTrit(1),
} as const satisfies Record<Deficiency, unknown>;

/** What such an eye sees in place of a colour: greys stay greys. Throws when it is not `#rrggbb`. */
export function seenWith(deficiency: Deficiency, hex: Hex): Hex {
  return formatHex(FILTERS[deficiency](channelsOf(hex)));
}

export interface AlikePair {
  /** Indices into the colours, the lower one first. */
  readonly pair: readonly [number, number];
  readonly to: readonly Deficiency[];
}

/**
 * Pairs of colours that usual eyes tell apart and others do not: CIEDE2000 below `limit` after a
 * filter, at or above it before. Throws when a colour is not `#rrggbb`.
 */
export function alikeToSome(colours: readonly Hex[], limit: number): readonly AlikePair[] {
  const seen = DEFICIENCIES.map((deficiency) => ({
    deficiency,
    labs: colours.map((hex) => labOf(seenWith(deficiency, hex))),
  }));
  const usual = colours.map(labOf);
  const pairs = colours.flatMap((_, i) =>
    colours.slice(i + 1).map((__, k) => [i, i + 1 + k] as const),
  );
  return pairs.flatMap(([i, j]): readonly AlikePair[] => {
    const apart = (labs: typeof usual) => {
      const [one, other] = [labs[i], labs[j]];
      return one === undefined || other === undefined ? 0 : ciede2000(one, other);
    };
    if (apart(usual) < limit) return [];
    const to = seen.flatMap(({ deficiency, labs }) => (apart(labs) < limit ? [deficiency] : []));
    return to.length === 0 ? [] : [{ pair: [i, j], to }];
  });
}
