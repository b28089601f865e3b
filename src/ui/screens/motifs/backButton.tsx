/** Back to the screen these pages were opened from, by its name. */
import { leaveMotifs } from '../../motifPages.ts';
import type { MotifPage, Screen } from '../../state.ts';

const NAMES: Readonly<Partial<Record<Screen['kind'], string>>> = {
  warps: 'Warps',
  weave: 'Loom',
  journal: 'Journal',
  measure: 'Measure',
  plan: 'Plan',
};

const PAGES: Readonly<Record<MotifPage['kind'], string>> = {
  shelf: 'Motifs',
  stretch: 'Stretch',
  against: 'Planned and woven',
};

export function BackButton({ back }: { readonly back: Screen }) {
  return (
    <button type="button" class="button" onClick={() => leaveMotifs(back)}>
      ‹ {back.kind === 'motifs' ? PAGES[back.page.kind] : (NAMES[back.kind] ?? 'Back')}
    </button>
  );
}
