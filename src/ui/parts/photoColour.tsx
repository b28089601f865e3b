/** A colour taken from a photo of the yarn: tap the spot, and the light around it is averaged. */

import { useEffect, useRef, useState } from 'preact/hooks';
import type { Hex } from '../../core/measure/colour.ts';
import { meanColour } from '../../core/measure/meanColour.ts';
import { drawPhoto, patchAt, type Spot } from '../device/photo.ts';
import { t } from '../language/t.ts';

export interface PhotoColourProps {
  readonly photo: File;
  /** The colour as it is now: what was taken is seen beside the photo. */
  readonly colour: Hex;
  readonly onColour: (colour: Hex) => void;
  readonly onClose: () => void;
}

type Shown = 'reading' | 'there' | 'unreadable';

/** One press of an arrow key, as a share of the photo. */
const STEP = 0.02;
const ARROWS: Readonly<Record<string, Spot>> = {
  ArrowLeft: { x: -STEP, y: 0 },
  ArrowRight: { x: STEP, y: 0 },
  ArrowUp: { x: 0, y: -STEP },
  ArrowDown: { x: 0, y: STEP },
};

export function PhotoColour({ photo, colour, onColour, onClose }: PhotoColourProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [shown, setShown] = useState<Shown>('reading');
  const [spot, setSpot] = useState<Spot | null>(null);
  useEffect(() => {
    const it = canvas.current;
    if (it === null) return;
    setSpot(null);
    void drawPhoto(photo, it).then((drawn) => setShown(drawn ? 'there' : 'unreadable'));
  }, [photo]);
  useEffect(() => {
    if (shown === 'there') canvas.current?.parentElement?.scrollIntoView({ block: 'nearest' });
  }, [shown]);
  const take = (next: Spot) => {
    setSpot(next);
    const mean = canvas.current === null ? null : meanColour(patchAt(canvas.current, next));
    if (mean !== null) onColour(mean);
  };
  return (
    <div class="photo">
      <div class="photo-head">
        {spot === null ? null : (
          <span class="skein photo-colour" style={{ backgroundColor: colour }} aria-hidden="true" />
        )}
        <p class="hint" role="status">
          {WORDS[shown]}
        </p>
      </div>
      <PhotoTap canvas={canvas} hidden={shown !== 'there'} spot={spot} onSpot={take} />
      <button type="button" class="button" onClick={onClose}>
        {shown === 'there' ? t('Done with the photo') : t('Back to the palette')}
      </button>
    </div>
  );
}

interface PhotoTapProps {
  readonly canvas: { current: HTMLCanvasElement | null };
  readonly hidden: boolean;
  readonly spot: Spot | null;
  readonly onSpot: (spot: Spot) => void;
}

function PhotoTap({ canvas, hidden, spot, onSpot }: PhotoTapProps) {
  return (
    <button
      type="button"
      class="photo-tap"
      hidden={hidden}
      aria-label={t('The photo: tap the yarn, or move the spot by the arrow keys')}
      onClick={(event) => {
        // A click by the keyboard has no place.
        if (event.detail > 0) onSpot(spotUnder(event));
      }}
      onKeyDown={(event) => {
        const by = ARROWS[event.key];
        if (by === undefined) return;
        event.preventDefault();
        onSpot(moved(spot ?? MIDDLE, by));
      }}
    >
      <canvas ref={canvas} />
      {spot === null ? null : <span class="photo-spot" style={placeOf(spot)} />}
    </button>
  );
}

const WORDS: Record<Shown, string> = {
  reading: t('Reading the photo …'),
  there: t('Tap the yarn where its colour is truest: in daylight, out of the glare.'),
  unreadable: t('This browser cannot read that file as a picture. JPEG and PNG always work.'),
};

const MIDDLE: Spot = { x: 0.5, y: 0.5 };

function spotUnder(event: MouseEvent & { readonly currentTarget: HTMLElement }): Spot {
  const box = event.currentTarget.getBoundingClientRect();
  return moved(
    { x: 0, y: 0 },
    { x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height },
  );
}

function moved({ x, y }: Spot, by: Spot): Spot {
  const within = (share: number) => Math.max(0, Math.min(1, share));
  return { x: within(x + by.x), y: within(y + by.y) };
}

function placeOf({ x, y }: Spot) {
  return { left: `${100 * x}%`, top: `${100 * y}%` };
}
