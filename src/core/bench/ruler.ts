/** Planned loom lengths of a stretch of picks, yarn by yarn: what the beat is measured against. */
import type { Ruler } from './beat/marks.ts';
import type { Course } from './course.ts';
import { lastAtOrBefore } from './search.ts';

/** The ruler of a course. One call is linear in the turns of its stretch. */
export function rulerOf({ turns, plan }: Course): Ruler {
  return (from, to) => {
    const planned = plan.yarns.map(() => 0);
    const first = Math.max(0, lastAtOrBefore(turns.firstPick, turns.count, from));
    for (let turn = first; turn < turns.count; turn++) {
      const start = turns.firstPick[turn] ?? 0;
      if (start >= to) break;
      const picks = Math.min(to, turns.firstPick[turn + 1] ?? 0) - Math.max(from, start);
      const yarn = turns.yarn[turn] ?? 0;
      if (picks > 0) planned[yarn] = (planned[yarn] ?? 0) + picks * (turns.spacing[turn] ?? 0);
    }
    return planned;
  };
}
