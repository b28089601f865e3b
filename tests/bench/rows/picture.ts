/** The picture of the cloth in the planner: drawn first, moved and made larger, in the built app. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { CDPSession, Page } from 'playwright-core';
import { button, closed } from '../../browser/bench.ts';
import { openChromium, serveDist, waitUntil } from '../../browser/harness.ts';
import type { Ground } from '../ground.ts';
import { watchDraws, watchFrames } from '../pages/probe.ts';
import { type Bench, type Limit, type Row, type Spread, spreadOf } from '../row.ts';
import { PICTURE, planFile } from '../samples.ts';
import { intervalsOf, openPlanner, TABLET } from './browser.ts';

const THREADS = `${PICTURE.ends.toLocaleString('en')} × ${PICTURE.picks.toLocaleString('en')} threads`;
const DRAWS = 16;
const WARM_UP = 3;
const PIXEL_DRAWS = 20;

export const pictureBench: Bench<Ground> = {
  name: 'picture',
  parts: [
    { what: `picture of ${THREADS}, a pixel an end`, run: pixelRows },
    { what: `picture of ${THREADS} in the planner`, run: plannerRows },
  ],
};

async function pixelRows({ pixelsDir }: Ground): Promise<readonly Row[]> {
  const server = await serveDist({ dir: pixelsDir });
  const { page, close } = await openChromium(TABLET);
  try {
    await page.goto(server.url);
    await page.evaluate((times) => window.benchPixels(times), WARM_UP);
    const { cloth, colour } = await page.evaluate(
      (times) => window.benchPixels(times),
      PIXEL_DRAWS,
    );
    return [drawnRow(`first draw of ${THREADS}, a pixel an end, from the plan`, cloth, colour)];
  } finally {
    await close();
    await server.stop();
  }
}

function drawnRow(what: string, ours: readonly number[], floor: readonly number[]): Row {
  const filling = 'filling the same pixels with one colour and putting them';
  return {
    what,
    unit: 'ms',
    ours: spreadOf(ours),
    floor: { what: filling, spread: spreadOf(floor) },
    limits: [{ kind: 'ratio', most: 3 }],
  };
}

/** A page with a canvas to be touched. */
interface Stage {
  readonly page: Page;
  readonly touch: CDPSession;
  readonly canvas: string;
}

async function plannerRows({ appDir, plainDir }: Ground): Promise<readonly Row[]> {
  const app = await serveDist({ dir: appDir });
  const plain = await serveDist({ dir: plainDir });
  const { context, page, close } = await openChromium(TABLET);
  try {
    await openPlanner(page, app.url, JSON.stringify(planFile(PICTURE)));
    const other = await context.newPage();
    await other.goto(plain.url);
    const session = (it: Page) => context.newCDPSession(it);
    const ours = { page, touch: await session(page), canvas: '.viewer-canvas' };
    const floor = { page: other, touch: await session(other), canvas: '.plain' };
    const draws = await drawInTurns(ours, floor);
    return [
      drawnRow(`first draw of ${THREADS} in the planner, tap to painted`, draws.ours, draws.floor),
      await movedRow('moved by a finger', ours, floor, drawAlong),
      await movedRow('made larger and smaller by two fingers', ours, floor, pinch),
    ];
  } finally {
    await close();
    await app.stop();
    await plain.stop();
  }
}

interface Draws {
  readonly ours: readonly number[];
  readonly floor: readonly number[];
}

/** The picture is left open at the end. */
async function drawInTurns(ours: Stage, floor: Stage): Promise<Draws> {
  // What is shown first lies beneath the canvas that covers all of the room.
  await ours.page.evaluate(watchDraws, '.viewer-room canvas');
  await floor.page.evaluate(watchDraws, floor.canvas);
  for (let draw = 1; draw <= WARM_UP + DRAWS; draw++) {
    await ours.page.bringToFront();
    if (draw > 1) {
      await button(ours.page, 'Close').click();
      await closed(ours.page);
      await sleep(200);
    }
    await drawOnce(ours, '.sum-picture', draw);
    const place = await placeOf(ours);
    await floor.page.bringToFront();
    await floor.page.evaluate((it) => window.benchPlace(it), place);
    await sleep(200);
    await drawOnce(floor, floor.canvas, draw);
  }
  const taken = ({ page }: Stage) => page.evaluate(() => window.benchDraws);
  return {
    ours: (await taken(ours)).slice(WARM_UP),
    floor: (await taken(floor)).slice(WARM_UP),
  };
}

async function drawOnce({ page }: Stage, tapped: string, draws: number): Promise<void> {
  await page.locator(tapped).click();
  const noted = () => page.evaluate((many) => window.benchDraws.length >= many, draws);
  if (!(await waitUntil(noted, 20_000))) throw new Error(`drawOnce: draw ${draws} was not seen`);
}

async function placeOf({ page, canvas }: Stage) {
  const box = await page.locator(canvas).boundingBox();
  if (box === null) throw new Error(`placeOf: got no ${canvas}`);
  return { left: box.x, top: box.y, width: box.width, height: box.height };
}

type Move = (stage: Stage) => Promise<void>;

const FRAMES: readonly Limit[] = [
  { kind: 'each', most: 32 },
  { kind: 'p95', most: 17 },
];

async function movedRow(how: string, ours: Stage, floor: Stage, move: Move): Promise<Row> {
  return {
    what: `picture of ${THREADS} ${how}, frame to frame`,
    unit: 'ms',
    ours: await framesOf(ours, move),
    floor: { what: 'a plain canvas of the same size', spread: await framesOf(floor, move) },
    limits: FRAMES,
  };
}

/** Milliseconds from frame to frame while it is moved; a first time is not counted. */
async function framesOf(stage: Stage, move: Move): Promise<Spread> {
  const { page } = stage;
  await page.bringToFront();
  await move(stage);
  await sleep(500);
  await page.evaluate(watchFrames);
  await move(stage);
  await page.evaluate(() => {
    window.benchIsWatching = false;
  });
  return spreadOf(intervalsOf(await page.evaluate(() => window.benchFrames)));
}

type Point = readonly [x: number, y: number];

const MOVED_MS = 2_000;
/** A touch screen tells of a finger about so often. */
const TOUCH_MS = 8;

/** Fingers at places told by the time that has passed, from 0 to 1. */
async function fingers({ touch }: Stage, at: (part: number) => readonly Point[]): Promise<void> {
  const points = (part: number) => at(part).map(([x, y], id) => ({ id, x, y }));
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: points(0) });
  const start = performance.now();
  for (let part = 0; part < 1; part = Math.min(1, (performance.now() - start) / MOVED_MS)) {
    await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: points(part) });
    await sleep(TOUCH_MS);
  }
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}

/** Up and down the cloth and a little to the sides, at the speed of a hand. */
async function drawAlong(stage: Stage): Promise<void> {
  const { left, top, width, height } = await placeOf(stage);
  const [x, y] = [left + width / 2, top + height / 2];
  await fingers(stage, (part) => [
    [
      x + 0.1 * width * Math.sin(4 * Math.PI * part),
      y + 0.4 * height * Math.sin(6 * Math.PI * part),
    ],
  ]);
}

/** From nearly together to far apart and back, three times. */
async function pinch(stage: Stage): Promise<void> {
  const { left, top, width, height } = await placeOf(stage);
  const [x, y] = [left + width / 2, top + height / 2];
  await fingers(stage, (part) => {
    const apart = 60 + 0.3 * width * Math.sin(3 * Math.PI * part) ** 2;
    return [
      [x - apart, y],
      [x + apart, y],
    ];
  });
}
