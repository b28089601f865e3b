// Plan files of the browser tests, each a demo plan changed in one respect.
import type { Plan } from '../../src/core/plan/plan.ts';
import { demoPlan } from './expected.ts';

type Weft = Plan['pieces'][number]['weft'];

/** The towels of the demo with a weft of its own for each piece, in the yarns A, B and C. */
export function planWeaving(name: string, ...wefts: readonly Weft[]): Plan {
  const plan = demoPlan('moss-and-chalk');
  const first = plan.pieces[0];
  if (first === undefined) throw new Error('got a demo without a piece');
  const { wish: _, ...piece } = first;
  const all = wefts.map((weft, i) => ({ ...piece, name: `${name} ${i + 1}`, weft }));
  return { ...plan, name, pieces: all };
}

export function solid(yarn: string, picks: number): Weft[number] {
  return { kind: 'solid', yarn, extent: { kind: 'picks', picks } };
}
