/** From where the cloth is looked at. */
import type { ClothPlan } from '../../../core/planner/clothPlan.ts';
import { BARE, type ClothRows } from '../../../core/planner/clothRows.ts';
import {
  ACROSS_THE_ROOM,
  ARMS_LENGTH,
  type EyeBlur,
  eyeBlur,
  SHARP,
} from '../../../core/planner/eye.ts';

export const DISTANCES = ['near', 'arm', 'room'] as const;
export type Distance = (typeof DISTANCES)[number];

export const DISTANCE_WORDS: Readonly<Record<Distance, string>> = {
  near: 'Near',
  arm: 'At arm’s length',
  room: 'Across the room',
};

export function blurAt(distance: Distance): EyeBlur {
  switch (distance) {
    case 'near':
      return SHARP;
    case 'arm':
      return eyeBlur(ARMS_LENGTH);
    case 'room':
      return eyeBlur(ACROSS_THE_ROOM);
  }
}

/** How far off that is; nothing where it is near. */
export const DISTANCE_NOTES: Readonly<Record<Distance, string | null>> = {
  near: null,
  arm: 'Seen from 60 cm (2 ft)',
  room: 'Seen from 4 m (13 ft)',
};

/** What the picture shows, for those who do not see it. */
export function clothWords({ plan, state, parts, ends }: ClothPlan): string {
  const pieces = new Set(parts.flatMap(({ bands }) => bands.map(({ piece }) => piece)));
  const [only] = pieces;
  const name =
    pieces.size === 1 && only !== undefined ? plan.pieces[only]?.name : `${pieces.size} pieces`;
  const picks = parts.reduce((sum, { rows }) => sum + picksOf(rows), 0);
  const as = state === 'loom' ? 'on the loom' : 'washed';
  return `The cloth of ${name ?? plan.name} ${as}: ${ends.length} ends, ${picks} picks`;
}

const picksOf = ({ sheds }: ClothRows) =>
  sheds.reduce((picks, shed) => picks + (shed === BARE ? 0 : 1), 0);
