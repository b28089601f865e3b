// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen, within } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { formatBlocks, formatStripes, parseStripes } from '../../../../src/core/plan/orderText.ts';
import type { Plan, Stripe } from '../../../../src/core/plan/plan.ts';
import { draft } from '../../../../src/ui/draft.ts';
import { BlocksEditor } from '../../../../src/ui/screens/plan/blocksEditor.tsx';
import { StripesEditor } from '../../../../src/ui/screens/plan/stripesEditor.tsx';
import { BASE, pieceOf, solid, yarns } from '../../../core/plan/samples.ts';

function stripes(text: string): readonly Stripe[] {
  const read = parseStripes(text);
  if (!read.ok) throw new Error(read.problem.code);
  return read.value;
}

function show(changes: Partial<Plan>): void {
  const plan = { ...BASE, yarns: yarns('ABC'), ...changes };
  draft.value = { id: 'test', plan, past: [], future: [], about: null };
}

function change(plan: Plan, about: string | null): void {
  const now = draft.peek();
  if (now !== null) draft.value = { ...now, plan, about };
}

const now = () => draft.value?.plan ?? BASE;
const warp = () => formatStripes(now().warp.order);
const weft = () => formatBlocks(now().pieces[0]?.weft ?? [], 'inch');

function WarpHost() {
  const plan = now();
  return (
    <StripesEditor
      stripes={plan.warp.order}
      yarns={plan.yarns}
      path="warp.order"
      onChange={(order, about) => change({ ...plan, warp: { ...plan.warp, order } }, about)}
    />
  );
}

function WeftHost() {
  const plan = now();
  const piece = plan.pieces[0] ?? pieceOf([]);
  return (
    <BlocksEditor
      blocks={piece.weft}
      yarns={plan.yarns}
      units="inch"
      path="pieces[0].weft"
      onChange={(blocks, about) => change({ ...plan, pieces: [{ ...piece, weft: blocks }] }, about)}
    />
  );
}

function openWarp(order: string): void {
  show({ warp: { ...BASE.warp, order: stripes(order) } });
  render(<WarpHost />);
}

const tap = async (name: string | RegExp, at = 0) => {
  const found = screen.getAllByRole('button', { name })[at];
  if (found === undefined) throw new Error(`no button ${name}`);
  await fireEvent.click(found);
};
const line = () => screen.getByLabelText<HTMLTextAreaElement>('In one line');
const type = (text: string) => fireEvent.input(line(), { target: { value: text } });

afterEach(() => {
  cleanup();
  draft.value = null;
});

describe('rows of stripes', () => {
  it('are added, stepped, moved, repeated and taken apart by touch alone', async () => {
    openWarp('24 B');
    await tap('Solid');
    expect(warp()).toBe('24 B, 12 A');
    await tap('Ends: more');
    await tap('Move up');
    expect(warp()).toBe('13 A, 24 B');
    await tap('Repeat this');
    await tap('Repeated: more');
    await tap('Take in row below');
    expect(warp()).toBe('3 times (13 A, 24 B)');
    await tap('Take apart');
    expect(warp()).toBe('13 A, 24 B');
  });

  it('fold to one line each, and only one is open', async () => {
    openWarp('24 B, 12 A, 9 turns of (2 C, 2 B)');
    await tap(/24 ends/);
    await tap(/9 turns/);
    const open = screen.getAllByRole('button', { expanded: true });
    expect(open.map((it) => it.textContent)).toEqual([expect.stringContaining('9 turns')]);
    expect(screen.getAllByRole('group', { name: 'This row' })).toHaveLength(1);
  });

  it('say their problems beside them, folded or open', async () => {
    openWarp('24 B, 12 D');
    const row = screen.getAllByRole('listitem')[1];
    if (row === undefined) throw new Error('no second row');
    expect(within(row).getByRole('alert').textContent).toContain('No yarn has the letter D');
    await tap(/12 ends/);
    expect(within(row).getByRole('alert').textContent).toContain('No yarn has the letter D');
    await fireEvent.click(within(row).getByRole('button', { name: 'C yarn C' }));
    expect(screen.queryByRole('alert')).toBeNull();
    expect(warp()).toBe('24 B, 12 C');
  });

  it('say where two of them will be seen as one', async () => {
    openWarp('24 B, 9 turns of (2 B, 2 A)');
    await tap(/9 turns/);
    expect(screen.getByText(/The row above touches this one with B too/)).toBeTruthy();
  });
});

describe('the line of text', () => {
  it('makes rows as it is typed, one step to undo in all', async () => {
    openWarp('24 B');
    await type('24 b, 3 x (2 a,2 b)');
    expect(warp()).toBe('24 B, 3 times (2 A, 2 B)');
    expect(draft.value?.about).toBe('warp.order.text');
    expect(line().value).toBe('24 b, 3 x (2 a,2 b)');
    await fireEvent.blur(line());
    expect(line().value).toBe('24 B, 3 times (2 A, 2 B)');
  });

  it('says what cannot be read, and changes nothing', async () => {
    openWarp('24 B');
    await type('24 B, 12 red');
    expect(warp()).toBe('24 B');
    expect(screen.getByText(/“red” says nothing here/)).toBeTruthy();
    await fireEvent.blur(line());
    expect(line().value).toBe('24 B, 12 red');
    await tap('Solid');
    expect(line().value).toBe('24 B, 12 A');
  });

  it('keeps what it does not say, even when a block is typed anew', async () => {
    const named = { ...solid('A', 24), name: 'border' };
    show({ pieces: [pieceOf([named, solid('B', 6)])] });
    render(<WeftHost />);
    await fireEvent.focus(line());
    await type('6 picks B');
    await type('30 picks A, 6 picks B');
    expect(now().pieces[0]?.weft[0]).toEqual({ ...solid('A', 30), name: 'border' });
  });
});

describe('rows of blocks', () => {
  it('an alternation that does not close is mended by one tap', async () => {
    show({ pieces: [pieceOf([solid('A', 6)])] });
    render(<WeftHost />);
    await type('12 turns of (2 A, 2 B) from A to A');
    await tap(/12 turns/);
    expect(screen.getByRole('alert').textContent).toContain('Near it: 11, 13');
    await tap('Make it 11 turns');
    expect(weft()).toBe('11 turns of (2 A, 2 B) from A to A');
    await tap('In all: more');
    expect(weft()).toBe('13 turns of (2 A, 2 B) from A to A');
    expect(screen.queryByRole('alert')).toBeNull();
  });

  it('a yarn that rests in a block floats, is caught or is cut as chosen there', async () => {
    show({ pieces: [pieceOf([solid('A', 6)])] });
    render(<WeftHost />);
    await tap(/6 picks/);
    const choice = screen.getAllByLabelText('While others work it')[1];
    if (choice === undefined) throw new Error('no choice for B');
    await fireEvent.change(choice, { target: { value: 'catch' } });
    await tap('Caught every: less');
    expect(now().pieces[0]?.weft[0]).toMatchObject({ resting: { B: { mode: 'catch', every: 3 } } });
    await fireEvent.change(choice, { target: { value: 'auto' } });
    expect(now().pieces[0]?.weft[0]).toEqual(solid('A', 6));
  });

  it('a solid by length is stepped by quarter inches, and may be said in picks', async () => {
    show({ pieces: [pieceOf([solid('A', 24)])] });
    render(<WeftHost />);
    await tap(/24 picks/);
    await tap('length');
    await tap('Length on the loom: more');
    expect(weft()).toBe('2¾ in A');
    await tap('odd');
    expect(weft()).toBe('2¾ in A odd picks');
    await tap('picks');
    expect(weft()).toBe('27 picks A');
  });
});
