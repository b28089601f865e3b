/** Back to the screen these pages were opened from, by its name. */
import { t } from '../../language/t.ts';
import { leaveMotifs } from '../../motifPages.ts';
import type { MotifPage, Screen } from '../../state.ts';

const NAMES: Readonly<Partial<Record<Screen['kind'], string>>> = {
  warps: t('Warps'),
  weave: t('Loom'),
  journal: t('Journal'),
  measure: t('Measure'),
  plan: t('Plan'),
};

const PAGES: Readonly<Record<MotifPage['kind'], string>> = {
  shelf: t('Motifs'),
  stretch: t('Stretch'),
  against: t('Planned and woven'),
};

export function BackButton({ back }: { readonly back: Screen }) {
  return (
    <button type="button" class="button" onClick={() => leaveMotifs(back)}>
      ‹ {back.kind === 'motifs' ? PAGES[back.page.kind] : (NAMES[back.kind] ?? t('Back'))}
    </button>
  );
}
