/** A plan from another device: read off its screen by the camera, from a photo, or from its link. */
import { useRef, useState } from 'preact/hooks';
import { sealedIn } from '../../../core/travel/link.ts';
import { arrive } from '../../arriving.ts';
import { ScanCamera } from '../../parts/scan/scanCamera.tsx';
import { ScanPhoto } from '../../parts/scan/scanPhoto.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import '../../style/fields.css';
import '../../style/travel.css';
import { t } from '../../language/t.ts';

export function ScanSheet({ onClose }: { readonly onClose: () => void }) {
  const [other, setOther] = useState<string | null>(null);
  const isTaken = useRef(false);
  /** A code of something else is told and passed over. */
  const onText = (text: string) => {
    if (sealedIn(text) === null) setOther(text);
    else if (!isTaken.current) {
      isTaken.current = true;
      onClose();
      void arrive(text);
    }
  };
  return (
    <Sheet title={t('Scan a plan')} onClose={onClose} wide>
      <div class="scan">
        <ScanCamera onText={onText} />
        <div class="scan-ways">
          <p role="status">
            {other === null ? null : (
              <>
                {t('That is a code, but there is no plan in it:')} <q>{other.slice(0, 60)}</q>
              </>
            )}
          </p>
          <ScanPhoto onText={onText} />
          <PasteLink onText={onText} />
        </div>
      </div>
    </Sheet>
  );
}

function PasteLink({ onText }: { readonly onText: (text: string) => void }) {
  const [text, setText] = useState('');
  return (
    <form
      class="scan-paste"
      onSubmit={(event) => {
        event.preventDefault();
        onText(text);
      }}
    >
      <label>
        {t('Or paste the link of a plan')}
        <input
          type="text"
          inputMode="url"
          autocomplete="off"
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="button" disabled={text.trim() === ''}>
        {t('Read the link')}
      </button>
    </form>
  );
}
