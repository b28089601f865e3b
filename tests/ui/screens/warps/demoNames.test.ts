import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { DEMOS, type Demo } from '../../../../src/demos/demos.ts';
import { DEMO_NAMES, withNames } from '../../../../src/ui/screens/warps/demoNames.ts';

async function planOf(demo: Demo): Promise<Plan> {
  const checked = checkPlan(await demo.load());
  if (!checked.ok) throw new Error(`planOf: got a demo that is no plan: ${demo.id}`);
  return checked.value;
}

describe.each(DEMOS)('the demo $id', (demo) => {
  it('has in English the names of its plan', async () => {
    const plan = await planOf(demo);
    expect(withNames(plan, DEMO_NAMES[demo.id])).toEqual(plan);
  });

  it('takes other names for its plan, loom, yarns, pieces and blocks', async () => {
    const plan = await planOf(demo);
    const names = DEMO_NAMES[demo.id];
    const other = (name: string | undefined) => `${name}!`;
    const renamed = withNames(plan, {
      ...names,
      plan: other(names.plan),
      loom: other(names.loom),
      yarns: Object.fromEntries(Object.entries(names.yarns).map(([k, name]) => [k, other(name)])),
      pieces: names.pieces.map(other),
      blocks: names.blocks.map(other),
    });
    expect(allNames(renamed)).toEqual(allNames(plan).map(other));
    expect(checkPlan(renamed).ok).toBe(true);
  });
});

const allNames = ({ name, loom, yarns, pieces }: Plan): readonly (string | undefined)[] => [
  name,
  loom.name,
  ...yarns.map((yarn) => yarn.name),
  ...pieces.flatMap((piece) => [
    piece.name,
    ...piece.weft.flatMap((block) => (block.name === undefined ? [] : [block.name])),
  ]),
];
