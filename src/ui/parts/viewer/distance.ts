/** From where the cloth is looked at. */

import {
  ACROSS_THE_ROOM,
  ARMS_LENGTH,
  type EyeBlur,
  eyeBlur,
  SHARP,
} from '../../../core/planner/eye.ts';
import { t } from '../../language/t.ts';

export const DISTANCES = ['near', 'arm', 'room'] as const;
export type Distance = (typeof DISTANCES)[number];

export const DISTANCE_WORDS: Readonly<Record<Distance, string>> = {
  near: t('Near'),
  arm: t('At arm’s length'),
  room: t('Across the room'),
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
  arm: t('Seen from 60 cm (2 ft)'),
  room: t('Seen from 4 m (13 ft)'),
};
