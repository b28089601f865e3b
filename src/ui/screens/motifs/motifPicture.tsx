/** The picture of a motif. */

import { useMemo } from 'preact/hooks';
import type { Motif } from '../../../core/plan/motif.ts';
import { t } from '../../language/t.ts';
import { courseOfMotif } from '../../motifs.ts';
import { StretchPicture } from '../../parts/stretchPicture.tsx';

/** The motif woven once on its own warp, lying on its side. */
export function MotifPicture({ motif }: { readonly motif: Motif }) {
  const course = useMemo(() => courseOfMotif(motif), [motif]);
  return (
    <div class="motif-picture">
      <StretchPicture
        course={course}
        piece={0}
        stretch={{ from: 0, to: course.picks }}
        label={t('The cloth of {name}', { name: motif.name })}
        look="near"
      />
    </div>
  );
}
