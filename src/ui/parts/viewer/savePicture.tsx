/**
 * The picture as a file. Both files are made first and offered then: a share sheet opens only at the
 * very tap that asks for it, and would not wait for a picture to be painted.
 */
import { useEffect, useState } from 'preact/hooks';
import type { ClothPlan } from '../../../core/planner/clothPlan.ts';
import { clothSvg } from '../../../core/planner/clothSvg.ts';
import { canShare, downloadFile, shareFile } from '../../device/files.ts';
import { Sheet } from '../sheet.tsx';
import type { Distance } from './distance.ts';
import { clothPng } from './png.ts';

export interface SavePictureProps {
  readonly cloth: ClothPlan;
  readonly distance: Distance;
  readonly onClose: () => void;
}

export function SavePicture({ cloth, distance, onClose }: SavePictureProps) {
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
    <Sheet title="Save picture" onClose={onClose}>
      <div class="form">
        <Offer
          what="PNG, as it is seen"
          file={png}
          trouble="This browser could not make so large a picture. One piece alone may work."
        />
        <Offer
          what="SVG, thread by thread, at its true size"
          file={svg}
          trouble="So many threads make too large a drawing. Show one piece alone, or save the PNG."
        />
      </div>
    </Sheet>
  );
}

interface OfferProps {
  readonly what: string;
  readonly file: File | string | null;
  readonly trouble: string;
}

function Offer({ what, file, trouble }: OfferProps) {
  if (typeof file === 'string') {
    return (
      <section class="viewer-offer">
        <h3>{what}</h3>
        <p role="status">{trouble}</p>
      </section>
    );
  }
  return (
    <section class="viewer-offer">
      <h3>{what}</h3>
      <p class="hint" role="status">
        {file === null ? 'making it …' : sizeWords(file.size)}
      </p>
      <div class="row">
        <button
          type="button"
          class="button"
          disabled={file === null}
          onClick={() => file !== null && downloadFile(file)}
        >
          Save
        </button>
        {file !== null && canShare(file) ? (
          <button type="button" class="button" onClick={() => void shareFile(file)}>
            Share
          </button>
        ) : null}
      </div>
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
