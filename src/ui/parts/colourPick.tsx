/** A colour: from a palette, mixed by the device's own picker, or taken from a photo of the yarn. */

import { useRef, useState } from 'preact/hooks';
import type { Hex } from '../../core/measure/colour.ts';
import { t } from '../language/t.ts';
import '../style/yarnForm.css';
import { colourName, PALETTE } from './palette.ts';
import { PhotoColour } from './photoColour.tsx';

export interface ColourPickProps {
  readonly colour: Hex;
  readonly onColour: (colour: Hex) => void;
}

export function ColourPick({ colour, onColour }: ColourPickProps) {
  const [photo, setPhoto] = useState<File | null>(null);
  return (
    <fieldset class="colour">
      <legend>{t('Colour')}</legend>
      <div class="colour-now">
        <span class="skein" style={{ backgroundColor: colour }} aria-hidden="true" />
        <div class="colour-ways">
          <span class="colour-name">{colourName(colour)}</span>
          <Mixer colour={colour} onColour={onColour} />
          <PhotoButton onPhoto={setPhoto} />
        </div>
      </div>
      {photo === null ? (
        <Palette colour={colour} onColour={onColour} />
      ) : (
        <PhotoColour
          photo={photo}
          colour={colour}
          onColour={onColour}
          onClose={() => setPhoto(null)}
        />
      )}
    </fieldset>
  );
}

/** The device's own picker, whatever it looks like there. */
function Mixer({ colour, onColour }: ColourPickProps) {
  return (
    <label class="button mixer">
      {t('Mix')}
      <input
        type="color"
        class="unseen"
        aria-label={t('Mix a colour')}
        value={colour}
        onInput={(event) => onColour(event.currentTarget.value)}
      />
    </label>
  );
}

function PhotoButton({ onPhoto }: { readonly onPhoto: (photo: File) => void }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class="button" onClick={() => input.current?.click()}>
        {t('From a photo')}
      </button>
      <input
        ref={input}
        type="file"
        accept="image/*"
        class="unseen"
        tabIndex={-1}
        aria-label={t('Photo of the yarn')}
        onChange={(event) => {
          const photo = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          if (photo !== undefined) onPhoto(photo);
        }}
      />
    </>
  );
}

function Palette({ colour, onColour }: ColourPickProps) {
  return (
    <div class="palette">
      {PALETTE.map(({ name, hex }) => (
        <button
          type="button"
          key={hex}
          class="palette-colour"
          style={{ backgroundColor: hex }}
          aria-label={name}
          aria-pressed={hex === colour}
          onClick={() => onColour(hex)}
        />
      ))}
    </div>
  );
}
