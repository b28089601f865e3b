/** Back to the screen these pages were opened from, by its name. */
import { leaveMotifs } from '../../motifPages.ts';
import type { Screen } from '../../state.ts';

const NAMES: Readonly<Partial<Record<Screen['kind'], string>>> = {
  warps: 'Warps',
  weave: 'Loom',
  journal: 'Journal',
  measure: 'Measure',
  plan: 'Plan',
};

export function BackButton({ back }: { readonly back: Screen }) {
  return (
    <button type="button" class="button" onClick={() => leaveMotifs(back)}>
      ‹ {NAMES[back.kind] ?? 'Back'}
    </button>
  );
}
