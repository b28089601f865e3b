/** Every sensible way to end a piece from here (design §4, "Endings"). Loaded when asked for, never with the bench. */
import type { Course } from '../course.ts';
import type { EndingContext } from './context.ts';
import type { Endings } from './ending.ts';

/** Stops and fits of the piece `context.piece`, the fell lying before `pick` of the course. */
export function endingsOf(_course: Course, _pick: number, _context: EndingContext): Endings {
  return { stops: [], fits: [] };
}
