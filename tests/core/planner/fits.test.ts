import { describe, expect, it } from 'vitest';
import type { Plan, Stripe, Wish } from '../../../src/core/plan/plan.ts';
import { type Fit, fitLength, fitWidth } from '../../../src/core/planner/fits.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import {
  alternation,
  BASE,
  checked,
  demo,
  INCH,
  pieceOf,
  planOf,
  solid,
  solidOfLength,
} from '../plan/samples.ts';
import { sharesFrom, stripesOf } from './examples.ts';

/** What a fit changes, in short: `order[0] ends 20→24`. */
function changesOf({ way, changes }: Fit): string {
  const short = (path: string) => path.replace(/^warp\.|^pieces\[\d+\]\./, '');
  const each = changes.map(({ kind, path, from, to }) => {
    const [a, b] = [from, to].map((n) => Number(n.toFixed(2)));
    return `${short(path)} ${kind} ${a}→${b}`;
  });
  return `${way}: ${each.join(', ')}`;
}

function warped(order: readonly Stripe[]): Plan {
  return planOf({ warp: { ...BASE.warp, order } });
}

/** Ways of a fit to a width that is so many ends. */
function waysTo(ends: number, order: readonly Stripe[]): readonly string[] {
  return fitWidth(warped(order), (ends / 12.5) * INCH).map(changesOf);
}

describe('the ways to a width', () => {
  it('are one wider stripe, a mirrored pair of them, or all in proportion', () => {
    expect(waysTo(48, stripesOf('A10 B20 A10'))).toEqual([
      'alone: order[1] ends 20→28',
      'pair: order[0] ends 10→14, order[2] ends 10→14',
      'in-proportion: order[0] ends 10→12, order[2] ends 10→12, order[1] ends 20→24',
      'alone: order[0] ends 10→18',
      'alone: order[2] ends 10→18',
    ]);
  });

  it('are repeats more or fewer, alone or with the rest in proportion', () => {
    const order: Stripe[] = [
      { kind: 'repeat', times: 4, of: stripesOf('A6 B4') },
      ...stripesOf('A6'),
    ];
    const fits = fitWidth(warped(order), (66 / 12.5) * INCH);
    expect(fits.map(changesOf)).toContain('repeat: order[0] times 4→6');
    expect(fits.filter((fit) => fit.way === 'repeat')[0]).toMatchObject({ mirrored: true });
    const near = fitWidth(warped(order), (60 / 12.5) * INCH);
    const mixed = near.filter((fit) => fit.way === 'repeat-in-proportion');
    expect(mixed.length).toBeGreaterThan(0);
    expect(mixed.every((fit) => fit.changes[0]?.kind === 'times')).toBe(true);
  });

  it('let an alternation grow by whole cycles, so that it goes on ending as it did', () => {
    const cycle = [
      { yarn: 'A', ends: 2 },
      { yarn: 'B', ends: 2 },
    ];
    expect(waysTo(34, [{ kind: 'alternation', cycle, turns: 13 }])).toEqual([
      'alone: order[0] turns 13→17',
    ]);
  });

  it('are none where the plan is as near as it can be, or the loom is too narrow', () => {
    expect(waysTo(40, stripesOf('A10 B20 A10'))).toEqual([]);
    expect(waysTo(30.4, stripesOf('A10 B20'))).toEqual([]);
    expect(waysTo(501, stripesOf('A250'))).toEqual([]);
  });

  it('are told in the washed width', () => {
    const allowances = sharesFrom({ drawIn: 0.05, shrinkWidth: 0.08 });
    const plan = planOf({ allowances, warp: { ...BASE.warp, order: stripesOf('A250') } });
    const [fit] = fitWidth(plan, 500);
    if (fit === undefined) throw new Error('no fit');
    expect(fit.reached).toBeCloseTo(sheetOf(fit.plan).widths.washed, 9);
    expect(fit.step).toBeCloseTo((INCH / 12.5) * 0.95 * 0.92, 9);
    expect(Math.abs(fit.miss)).toBeLessThanOrEqual(fit.step / 2);
  });

  it('are eight at most, mirrored ones first, then by how little they change', () => {
    const many = stripesOf('A10 B12 A14 B16 A18 B20 A22 B20 A18 B16 A14 B12 A10');
    const fits = fitWidth(warped(many), (210 / 12.5) * INCH);
    expect(fits).toHaveLength(8);
    const mirrored = fits.map((fit) => fit.mirrored);
    expect(mirrored).toEqual(mirrored.toSorted((a, b) => Number(b) - Number(a)));
    const costs = fits.filter((fit) => fit.mirrored).map((fit) => fit.cost);
    expect(costs).toEqual(costs.toSorted((a, b) => a - b));
  });

  it('leave a thin accent thin: none doubles a stripe by itself', () => {
    const ways = waysTo(150, stripesOf('A60 B2 A60'));
    expect(ways.filter((way) => way.includes('order[1]') && way.startsWith('alone'))).toEqual([]);
    expect(ways.length).toBeGreaterThan(0);
  });
});

describe('the ways to a length', () => {
  const wish = (length: number, state: Wish['state'] = 'loom'): Wish => ({ state, length });
  /** One pick is 2 mm. */
  const woven = (weft: Parameters<typeof pieceOf>[0]) =>
    planOf({ weaving: { ...BASE.weaving, pickSpacing: 2 }, pieces: [pieceOf(weft)] });
  const waysOf = (weft: Parameters<typeof pieceOf>[0], length: number) =>
    fitLength(woven(weft), 0, wish(length)).map(changesOf);

  it('keep the parity of a solid: it grows by two picks', () => {
    expect(waysOf([solid('A', 20)], 51)).toEqual(['alone: weft[0].extent picks 20→26'].map(plain));
    expect(waysOf([solid('A', 21)], 51)).toEqual(['alone: weft[0].extent picks 21→25'].map(plain));
    expect(waysOf([solidOfLength('A', 41)], 51)).toEqual(['alone: weft[0] loomLength 41→52']);
  });

  it('keep an alternation closing: it grows by whole periods', () => {
    const closing = { closes: 'A' };
    const twoAndTwo = alternation('A2 B2', { kind: 'turns', turns: 13 }, closing);
    expect(waysOf([twoAndTwo], 68)).toEqual(['alone: weft[0] turns 13→17']);
    const byPicks = alternation('A2 B2', { kind: 'picks', picks: 26 }, closing);
    expect(waysOf([byPicks], 68)).toEqual(['alone: weft[0] picks 26→34']);
    const byLength = alternation('A2 B2', { kind: 'length', loomLength: 50 }, closing);
    expect(waysOf([byLength], 68)).toEqual(['alone: weft[0] loomLength 50→68']);
  });

  it('take one block alone, the two of a mirrored pair, or all of them by length in proportion', () => {
    const weft = [solidOfLength('A', 40), solidOfLength('B', 80), solidOfLength('A', 40)];
    expect(waysOf(weft, 192)).toEqual([
      'alone: weft[1] loomLength 80→112',
      'pair: weft[0] loomLength 40→56, weft[2] loomLength 40→56',
      'in-proportion: weft[0] loomLength 40→48, weft[2] loomLength 40→48, weft[1] loomLength 80→96',
      'alone: weft[0] loomLength 40→72',
      'alone: weft[2] loomLength 40→72',
    ]);
  });

  it('stretch in proportion only what was planned by length, where anything was', () => {
    const weft = [solid('A', 20), solidOfLength('B', 80), solid('A', 20)];
    expect(waysOf(weft, 176)).toEqual([
      'alone: weft[1] loomLength 80→96',
      'pair: weft[0] picks 20→24, weft[2] picks 20→24',
      'alone: weft[0] picks 20→28',
      'alone: weft[2] picks 20→28',
    ]);
  });

  it('are told in the state of the wish, hems as they are', () => {
    const hem = { kind: 'hem', washedAllowance: 30 } as const;
    const plan = planOf({
      allowances: sharesFrom({ relax: 0.04, shrinkLength: 0.1 }),
      pieces: [pieceOf([solidOfLength('A', 500)], { beginning: hem, ending: hem })],
    });
    for (const state of ['loom', 'off', 'washed', 'finished'] as const) {
      const [fit] = fitLength(plan, 0, wish(600, state));
      if (fit === undefined) throw new Error(`no fit ${state}`);
      const piece = sheetOf(fit.plan).pieces[0];
      expect(fit.reached).toBeCloseTo(piece?.[`${state}Length`] ?? 0, 6);
      expect(Math.abs(fit.miss)).toBeLessThanOrEqual(fit.step / 2 + 1e-6);
      expect(piece?.hemPicks).toEqual(sheetOf(plan).pieces[0]?.hemPicks);
    }
  });

  it('leave the other pieces and the warp alone', () => {
    const plan = checked(demo('ink-oat-ochre'));
    for (const fit of fitLength(plan, 1, { state: 'finished', length: 620 })) {
      expect(fit.plan.pieces[0]).toBe(plan.pieces[0]);
      expect(fit.plan.warp).toBe(plan.warp);
    }
  });

  it('bring a demo to a longer wish', () => {
    const plan = checked(demo('ink-oat-ochre'));
    const fits = fitLength(plan, 0, { state: 'finished', length: 620 });
    expect(fits.length).toBeGreaterThan(2);
    expect(fits.every((fit) => fit.mirrored)).toBe(true);
  });
});

const plain = (way: string) => way.replace('.extent', '');
