// Weaving by eye in the browser tests: a plan to weave, the yarns as buttons, and what must stand there.
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { yarnsToThrow } from '../../src/core/bench/byEye/yarnsToThrow.ts';
import { yarnAt } from '../../src/core/bench/pickAt.ts';
import { type Progress, progressOf } from '../../src/core/bench/progress.ts';
import type { Block, Edge, Plan } from '../../src/core/plan/plan.ts';
import { readCall, storedEvents, storedRecords } from './bench.ts';
import { demoPlan, expectedCall } from './expected.ts';

/** The towels of the demo woven by eye: of each piece these blocks, begun and ended plainly unless told. */
export function planByEye(
  name: string,
  wefts: readonly (readonly Block[])[],
  edge: Edge = { kind: 'plain', washedAllowance: 0 },
): Plan {
  const plan = demoPlan('moss-and-chalk');
  const pieces = wefts.map((weft, i) => ({
    name: `${name} ${i + 1}`,
    startShed: 'up' as const,
    beginning: edge,
    ending: edge,
    weft,
  }));
  return { ...plan, name, pieces };
}

/** So many yarns in all: those of the plan, then more like them. */
export function withYarns(plan: Plan, names: readonly string[]): Plan {
  const [like] = plan.yarns;
  if (like === undefined) throw new Error('got a plan without a yarn');
  const { onHand: _, shelf: __, ...bare } = like;
  const more = names.map((name, i) => ({
    ...bare,
    name,
    letter: String.fromCharCode(65 + plan.yarns.length + i),
    colour: `#${(0x31415f + 0x2b4c1d * (i + 1)).toString(16).slice(-6)}`,
  }));
  return { ...plan, yarns: [...plan.yarns, ...more] };
}

export const yarnButton = (page: Page, letter: string) =>
  page.locator(`.eye-yarn[data-yarn="${letter}"]`);

/** Taps with a finger, one button a letter. */
export async function tapYarns(page: Page, letters: string): Promise<void> {
  for (const letter of letters) await yarnButton(page, letter).tap();
}

/** Opens the sheet of the by-eye bar and takes one entry of it. */
export async function byEyeEntry(page: Page, entry: string): Promise<void> {
  await page.locator('.eye-more').tap();
  await page.locator('dialog[open] .menu-button', { hasText: entry }).tap();
}

/** The warp woven on last, folded from what lies on the disk. */
export async function storedProgress(page: Page): Promise<Progress> {
  const all = await storedEvents(page);
  const last = all.toSorted((a, b) => a.at.localeCompare(b.at)).at(-1);
  const log = all.filter((event) => event.warp === last?.warp);
  return progressOf(await planOf(page, last?.warp ?? ''), log);
}

async function planOf(page: Page, warp: string): Promise<Plan> {
  const revisions = (await storedRecords(page, 'revisions')) as readonly {
    readonly warp: string;
    readonly plan: Plan;
  }[];
  const plan = revisions.find((it) => it.warp === warp)?.plan;
  if (plan === undefined) throw new Error(`got no plan of ${warp}`);
  return plan;
}

/** What is in the cloth, a letter a pick. */
export function clothOf({ course, pick }: Progress): string {
  const letters = Array.from({ length: pick }, (_, n) => yarnAt(course, n));
  return letters.map((yarn) => course.plan.yarns[yarn]?.letter).join('');
}

/** The bench shows what the core makes of the log on the disk: shed, side, shuttles, and every yarn's side. */
export async function expectAsLogged(page: Page): Promise<void> {
  const { course, pick } = await storedProgress(page);
  const { letter, shed, from, left, right } = expectedCall(course, pick);
  await expect.poll(() => readCall(page)).toMatchObject({ letter, shed, from, left, right });
  const sides = await page.locator('.eye-yarn').allTextContents();
  for (const [i, it] of yarnsToThrow(course, pick).entries())
    expect(sides[i]).toContain(`from ${it.from}`);
}
