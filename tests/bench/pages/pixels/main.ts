/** A cloth painted with a pixel for every end, beside as many pixels of one colour. */
import { NO_ADJUSTMENTS } from '../../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../../src/core/bench/course.ts';
import { clothPlan, endWidth } from '../../../../src/core/planner/clothPlan.ts';
import { SHARP } from '../../../../src/core/planner/eye.ts';
import { paintGlimpse } from '../../../../src/ui/parts/viewer/paintGlimpse.ts';
import { planOf } from '../../core/layPlan.ts';
import { PICTURE } from '../../samples.ts';

interface Times {
  readonly cloth: number[];
  readonly colour: number[];
}

declare global {
  interface Window {
    /** Both in turns, on canvases just made: milliseconds from the plan to the put pixels. */
    benchPixels: (times: number) => Times;
  }
}

const GROUND = 0xffe8f0f4;
const plan = planOf(PICTURE);

window.benchPixels = (times) => {
  const taken: Times = { cloth: [], colour: [] };
  for (let i = 0; i < times; i++) {
    let size = { width: 1, height: 1 };
    taken.cloth.push(
      timeOf(() => {
        size = paintCloth();
      }),
    );
    taken.colour.push(timeOf(() => fill(size.width, size.height)));
  }
  return taken;
};

function paintCloth() {
  const cloth = clothPlan(layCourse(plan, NO_ADJUSTMENTS), { state: 'washed' });
  const scale = 1 / endWidth(cloth);
  const width = Math.ceil(cloth.width * scale);
  const height = Math.ceil(cloth.height * scale);
  const view = { left: 0, top: 0, scale, width, height };
  paintGlimpse(contextOf(width, height), cloth, view, { blur: SHARP, ground: GROUND });
  return { width, height };
}

function fill(width: number, height: number): void {
  const ctx = contextOf(width, height);
  const image = ctx.createImageData(width, height);
  new Uint32Array(image.data.buffer).fill(GROUND);
  ctx.putImageData(image, 0, 0);
}

function contextOf(width: number, height: number): CanvasRenderingContext2D {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const ctx = canvas.getContext('2d', { alpha: false });
  if (ctx === null) throw new Error('got no context, wanted one');
  return ctx;
}

function timeOf(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}
