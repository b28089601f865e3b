/** The picture as a file: as it is seen, or as a drawing. */

import { useEffect, useState } from 'preact/hooks';
import type { ClothPlan } from '../../../core/planner/clothPlan.ts';
import { clothSvg } from '../../../core/planner/clothSvg.ts';
import { t } from '../../language/t.ts';
import { FileOffer, fileName } from '../fileOffer.tsx';
import type { Distance } from './distance.ts';
import { clothPng } from './png.ts';

const NO_PNG = t('This browser could not make so large a picture. One piece alone may work.');
const NO_SVG = t(
  'So many threads make too large a drawing. Show one piece alone, or save the PNG.',
);

export interface SavePictureProps {
  readonly cloth: ClothPlan;
  readonly distance: Distance;
}

export function SavePicture({ cloth, distance }: SavePictureProps) {
  const [png, setPng] = useState<File | 'refused' | null>(null);
  const [svg, setSvg] = useState<File | 'too-large' | null>(null);
  useEffect(() => {
    let wanted = true;
    void clothPng(cloth, distance, () => wanted).then((blob) => {
      if (wanted) setPng(blob === null ? 'refused' : fileOf(cloth, blob, 'png'));
    });
    const drawn = clothSvg(cloth, `${cloth.plan.name}, ${cloth.state}`);
    const type = 'image/svg+xml';
    setSvg(drawn.ok ? fileOf(cloth, new Blob([drawn.value], { type }), 'svg') : 'too-large');
    return () => {
      wanted = false;
    };
  }, [cloth, distance]);
  return (
    <div class="viewer-save">
      <FileOffer
        what={t('PNG, as it is seen')}
        name="PNG"
        file={png === 'refused' ? NO_PNG : png}
      />
      <FileOffer
        what={t('SVG, thread by thread, at true size')}
        name="SVG"
        file={svg === 'too-large' ? NO_SVG : svg}
      />
    </div>
  );
}

function fileOf({ plan, state }: ClothPlan, blob: Blob, ending: string): File {
  const name = `${fileName(plan.name, 'cloth')}-${state}.${ending}`;
  return new File([blob], name, { type: blob.type });
}
