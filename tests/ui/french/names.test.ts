// @vitest-environment happy-dom
import './speaksFrench.ts';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import { copyOfPiece, newPlan } from '../../../src/core/planner/newPlan.ts';
import { DEMOS } from '../../../src/demos/demos.ts';
import { freshPlan, freshSample } from '../../../src/ui/givenNames.ts';
import { DEMO_NAMES, withNames } from '../../../src/ui/screens/warps/demoNames.ts';

describe('in French', () => {
  it('a plan begins with French names, and copies of its piece go on counting', () => {
    const plan = freshPlan(newPlan('metric', 'rigid-heddle'));
    expect([plan.name, plan.yarns[0]?.name, plan.pieces[0]?.name]).toEqual([
      'Nouvelle chaîne',
      'écru',
      'Pièce 1',
    ]);
    expect(copyOfPiece(plan, 0).pieces[1]?.name).toBe('Pièce 2');
    expect(freshSample(plan).name).toBe('Nouvelle chaîne, échantillon');
  });

  it('the name of a sample is never longer than a plan may have', () => {
    const plan = { ...newPlan('metric', 'shaft'), name: 'é'.repeat(120) };
    expect(checkPlan(freshSample(plan)).ok).toBe(true);
  });

  it.each(DEMOS)('the demo $id is opened with French names, and is a plan', async (demo) => {
    const checked = checkPlan(await demo.load());
    if (!checked.ok) throw new Error(demo.id);
    const named = withNames(checked.value, DEMO_NAMES[demo.id]);
    expect(checkPlan(named).ok).toBe(true);
    const known = new Set(checked.value.yarns.map((yarn) => yarn.name));
    expect(named.yarns.filter((yarn) => known.has(yarn.name))).toEqual([]);
    expect(named.pieces.map((piece) => piece.name)).not.toEqual(
      checked.value.pieces.map((piece) => piece.name),
    );
  });
});
