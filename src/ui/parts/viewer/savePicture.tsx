/**
 * The picture as a file. Both files are made first and offered then: a share sheet opens only at the
 * very tap that asks for it, and would not wait for a picture to be painted.
 */
import { useEffect, useState } from 'preact/hooks';
import type { ClothPlan } from '../../../core/planner/clothPlan.ts';
import { clothSvg } from '../../../core/planner/clothSvg.ts';
import { canShare, downloadFile, shareFile } from '../../device/files.ts';
import type { Distance } from './distance.ts';
import { clothPng } from './png.ts';

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
      <Offer
        what="PNG, as it is seen"
        file={png}
        trouble="This browser could not make so large a picture. One piece alone may work."
      />
      <Offer
        what="SVG, thread by thread, at true size"
        file={svg}
        trouble="So many threads make too large a drawing. Show one piece alone, or save the PNG."
      />
    </div>
  );
}

interface OfferProps {
  readonly what: string;
  readonly file: File | string | null;
  readonly trouble: string;
}

function Offer({ what, file, trouble }: OfferProps) {
  const words =
    file === null ? 'making it …' : typeof file === 'string' ? trouble : sizeWords(file.size);
  const ready = file instanceof File ? file : null;
  return (
    <section class="viewer-offer">
      <div>
        <h3>{what}</h3>
        <p role="status">{words}</p>
      </div>
      {typeof file === 'string' ? null : (
        <button
          type="button"
          class="button"
          disabled={ready === null}
          aria-label={`Save ${what.slice(0, 3)}`}
          onClick={() => ready !== null && downloadFile(ready)}
        >
          Save
        </button>
      )}
      {ready !== null && canShare(ready) ? (
        <button
          type="button"
          class="button"
          aria-label={`Share ${what.slice(0, 3)}`}
          onClick={() => void shareFile(ready)}
        >
          Share
        </button>
      ) : null}
    </section>
  );
}

function sizeWords(bytes: number): string {
  return bytes < 100_000
    ? `${Math.ceil(bytes / 1000)} kB`
    : `${(Math.ceil(bytes / 100_000) / 10).toFixed(1)} MB`;
}

/** Names that every system takes. */
function fileOf({ plan, state }: ClothPlan, blob: Blob, ending: string): File {
  const name = plan.name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '');
  return new File([blob], `${name || 'cloth'}-${state}.${ending}`, { type: blob.type });
}
