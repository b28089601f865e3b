/** The next yarn of a plan: a letter no other has, and a colour none comes near. */
import { ciede2000, labOf } from '../measure/colour.ts';
import { LIMITS } from '../plan/limits.ts';
import type { Letter, Yarn } from '../plan/plan.ts';

/** The first letter no yarn has; null where a plan holds no more. */
export function freeLetter(yarns: readonly Yarn[]): Letter | null {
  if (yarns.length >= LIMITS.yarns) return null;
  const used = new Set(yarns.map((yarn) => yarn.letter));
  return [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].find((letter) => !used.has(letter)) ?? null;
}

const COLOURS = [
  { name: 'chalk', colour: '#efe6d2' },
  { name: 'moss', colour: '#5d7043' },
  { name: 'rust', colour: '#b4552d' },
  { name: 'ink', colour: '#2f4560' },
  { name: 'ochre', colour: '#c58a2b' },
  { name: 'slate', colour: '#6d7378' },
] as const;

/** From here on two colours are taken for two at a glance; ours, by looking. */
const APART = 20;

/** Another yarn like the last one, in a colour that no yarn of the plan comes near. */
export function anotherYarn(yarns: readonly Yarn[], letter: Letter): Yarn {
  const last = yarns[yarns.length - 1];
  const labs = yarns.map((yarn) => labOf(yarn.colour));
  const isFresh = ({ name, colour }: (typeof COLOURS)[number]) =>
    yarns.every((yarn) => yarn.name !== name) &&
    labs.every((lab) => ciede2000(lab, labOf(colour)) >= APART);
  const fresh = COLOURS.find(isFresh) ?? COLOURS[yarns.length % COLOURS.length] ?? COLOURS[0];
  const count = last?.count ?? { system: 'cottonCount', number: 8, plies: 2 };
  return { letter, name: fresh.name, colour: fresh.colour, fibre: last?.fibre ?? 'cotton', count };
}
