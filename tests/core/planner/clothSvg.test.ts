import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import { pixelOf } from '../../../src/core/plan/clothPicture.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import {
  type ClothPart,
  type ClothPlan,
  type ClothState,
  clothPlan,
  endWidth,
  windowCells,
} from '../../../src/core/planner/clothPlan.ts';
import { BARE } from '../../../src/core/planner/clothRows.ts';
import { clothSvg, SVG_LIMIT } from '../../../src/core/planner/clothSvg.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import { alternation, BASE, pieceOf, planOf, yarns } from '../plan/samples.ts';

const clothOf = (plan: Plan, state: ClothState): ClothPlan =>
  clothPlan(layCourse(plan, NO_ADJUSTMENTS), { state });

function svgOf(cloth: ClothPlan): string {
  const svg = clothSvg(cloth, 'A title');
  if (!svg.ok) throw new Error(svg.problem);
  return svg.value;
}

interface Shape {
  readonly colour: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The rectangles of the filled paths in a piece of SVG. */
function shapesIn(svg: string): readonly Shape[] {
  return [...svg.matchAll(/<path fill="(#[0-9a-f]{6})" d="([^"]*)"\/>/g)].flatMap((path) =>
    [...(path[2] ?? '').matchAll(/M(\S+) (\S+?)h(\S+?)v(\S+?)h-\S+?z/g)].map((box) => {
      const [x = 0, y = 0, width = 0, height = 0] = box.slice(1).map(Number);
      return { colour: pixelOf(path[1] ?? ''), x, y, width, height };
    }),
  );
}

/** What a reader of SVG would paint at a point of a part, as it counts: from its beginning upwards. */
function painterOf(svg: string, part: number) {
  const sheds = [...svg.matchAll(/<g id="up\d">(.*?)<\/g>/g)].map((it) => shapesIn(it[1] ?? ''));
  const body = svg.slice(svg.indexOf('</defs>')).split('<g ')[part + 1] ?? '';
  const weft = shapesIn(body);
  const uses = [...body.matchAll(/href="#up(\d)" transform="matrix\(1 0 0 (\S+) 0 (\S+)\)"/g)].map(
    ([, shed, height, y]) => ({ shed: Number(shed), y: Number(y), height: Number(height) }),
  );
  const holds = ({ x, y, width, height }: Shape, atX: number, atY: number) =>
    atX >= x && atX < x + width && atY >= y && atY < y + height;
  return (x: number, y: number) => {
    const use = uses.findLast((it) => y >= it.y && y < it.y + it.height);
    const over = use && sheds[use.shed]?.find((it) => holds(it, x, (y - use.y) / use.height));
    return (over ?? weft.findLast((it) => holds(it, x, y)))?.colour;
  };
}

function expectCells(cloth: ClothPlan, part: ClothPart, index: number, svg: string): void {
  const { at, count } = part.rows;
  const width = cloth.ends.length;
  const cells = windowCells(cloth, part, { ends: [0, width], rows: [0, count] });
  const paint = painterOf(svg, index);
  const painted = Array.from(cells, (_, i) => {
    const row = Math.floor(i / width);
    return paint(((i % width) + 0.5) * endWidth(cloth), ((at[row] ?? 0) + (at[row + 1] ?? 0)) / 2);
  });
  expect(painted).toEqual([...cells]);
}

describe('the drawing', () => {
  it('shows in every cell the colour the cloth has there, also where warp lies bare', () => {
    fc.assert(
      fc.property(anyPlan, fc.constantFrom<ClothState>('loom', 'washed'), (plan, state) => {
        const cloth = clothOf(plan, state);
        const svg = svgOf(cloth);
        for (const [i, part] of cloth.parts.entries()) expectCells(cloth, part, i, svg);
      }),
      { numRuns: 30 },
    );
  });

  it('has the size of the cloth in millimetres', () => {
    const cloth = clothOf(BASE, 'washed');
    const [, width, height, w, h] =
      /width="(\S+)mm" height="(\S+)mm" viewBox="0 0 (\S+) (\S+)"/.exec(svgOf(cloth)) ?? [];
    expect(Number(width)).toBeCloseTo(cloth.width, 3);
    expect(Number(height)).toBeCloseTo(cloth.height, 3);
    expect([w, h]).toEqual([width, height]);
  });

  it('has a stroke for every end of a finished fringe, and none on the loom', () => {
    const fringe = { kind: 'hemstitch', fringe: 20, twisted: false } as const;
    const plan = planOf({ pieces: [pieceOf(BASE.pieces[0]?.weft ?? [], { ending: fringe })] });
    expect(svgOf(clothOf(plan, 'washed')).match(/stroke-linecap/g)).toHaveLength(4);
    const loom = clothOf(plan, 'loom');
    expect(svgOf(loom)).not.toContain('stroke-linecap');
    expect([...(loom.parts[0]?.rows.sheds ?? [])]).toContain(BARE);
  });

  it('is well-formed whatever the plan is called', () => {
    const svg = clothSvg(clothOf(BASE, 'loom'), '<b> & "co"');
    expect(svg.ok && svg.value).toContain('<title>&#60;b&#62; &#38; &#34;co&#34;</title>');
    expect(svg.ok && svg.value.match(/<g\b/g)?.length).toBe(
      svg.ok && svg.value.match(/<\/g>/g)?.length,
    );
  });

  it('of 1,000 ends and 4,000 picks stays under 1 MB; one too large is refused', () => {
    const plan = planOf({
      yarns: yarns('AB'),
      loom: { ...BASE.loom, weavingWidth: 3000 },
      warp: {
        order: [{ kind: 'solid', yarn: 'A', ends: 1000 }],
        firstEnd: 'slot',
        viewpoint: 'front',
      },
      pieces: [pieceOf([alternation('A1 B1', { kind: 'picks', picks: 4000 })])],
    });
    const svg = svgOf(clothOf(plan, 'loom'));
    expect(svg.match(/<use /g)).toHaveLength(4000);
    expect(svg.length).toBeLessThan(1_000_000);
    expect(svg.length).toBeLessThan(SVG_LIMIT);
    const refused = clothSvg(clothOf(plan, 'loom'), 'A title', 100_000);
    expect(refused).toEqual({ ok: false, problem: 'too-large' });
  });
});
