/** To the pages of motifs and of the cloth they come from, and back. */
import { batch, signal } from '@preact/signals';
import { showWarps } from './actions.ts';
import { type MotifPage, notice, type Screen, screen } from './state.ts';

/** The id of a motif on its way into a plan: the planner opens with it. */
export const motifForPlan = signal<string | null>(null);

export const showMotifs = () => show({ kind: 'shelf' });
export const chooseStretch = (piece: number) => show({ kind: 'stretch', piece });
export const showAgainst = (piece: number) => show({ kind: 'against', piece });

function show(page: MotifPage): void {
  const from = screen.peek();
  batch(() => {
    notice.value = null;
    screen.value = { kind: 'motifs', page, back: from };
  });
}

/** Back to where the weaver came from. */
export function leaveMotifs(back: Screen): void {
  if (back.kind === 'warps') void showWarps();
  else screen.value = back;
}
