import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import inkOatOchre from '../../../src/demos/ink-oat-ochre.json';
import mossAndChalk from '../../../src/demos/moss-and-chalk.json';

describe('the demo warps', () => {
  it.each([
    ['moss and chalk', mossAndChalk],
    ['ink, oat and ochre', inkOatOchre],
  ])('%s comes to its own wish, and its yarn is enough', (_, demo) => {
    const checked = checkPlan(demo);
    if (!checked.ok) throw new Error(`got ${JSON.stringify(checked.problem)}, wanted a plan`);
    const sheet = sheetOf(checked.value);
    for (const piece of sheet.pieces) expect(Math.abs(piece.wish?.miss ?? 99)).toBeLessThan(4);
    expect(sheet.yarns.map(({ verdict }) => verdict)).not.toContain('short');
  });
});
