import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planJsonSchema } from '../../../scripts/planJsonSchema.mjs';
import { planParts, planSchema } from '../../../src/core/plan/schema.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import { BASE, DEMOS, demo } from './samples.ts';

const published = readFileSync(
  new URL('../../../public/plan.schema.json', import.meta.url),
  'utf8',
);
const accepts = new Ajv2020({ strict: true, strictTypes: false }).compile(JSON.parse(published));

describe('the published schema', () => {
  it('is what the app reads plans through: npm run schema', () => {
    expect(published).toBe(planJsonSchema(planSchema, planParts));
  });

  it.each(DEMOS)('accepts the demo %s', (name) => {
    expect([accepts(demo(name)), accepts.errors]).toEqual([true, null]);
  });

  it('accepts every plan the app accepts', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        expect(accepts(JSON.parse(JSON.stringify(plan)))).toBe(true);
      }),
    );
  });

  it.each([
    ['another format', { ...BASE, format: 'other' }],
    ['another version', { ...BASE, version: 2 }],
    ['a name of spaces', { ...BASE, name: '  ' }],
    ['a field of no plan', { ...BASE, author: 'x' }],
    ['no pieces', { ...BASE, pieces: [] }],
    [
      'an unknown kind of block',
      { ...BASE, pieces: [{ ...BASE.pieces[0], weft: [{ kind: 'twill' }] }] },
    ],
    ['a colour in words', { ...BASE, yarns: [{ ...BASE.yarns[0], colour: 'red' }] }],
  ])('refuses %s', (_, plan) => {
    expect(accepts(plan)).toBe(false);
  });
});
