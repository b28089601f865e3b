/** A code read from a photo or a picture file. */

import { useState } from 'preact/hooks';
import { openCodeReader } from '../../device/codeReader.ts';
import { drawPhoto } from '../../device/photo.ts';
import { t } from '../../language/t.ts';
import { FileButton } from '../fileButton.tsx';

export interface ScanPhotoProps {
  readonly onText: (text: string) => void;
}

type State = 'nothing-yet' | 'reading' | 'no-picture' | 'no-code' | 'no-reader';

const WORDS: Record<State, string> = {
  'nothing-yet': '',
  reading: t('Looking for the code …'),
  'no-picture': t('This browser cannot read that file as a picture. JPEG and PNG always work.'),
  'no-code': t(
    'No code was found in that picture. It should be sharp, straight, and fill the picture.',
  ),
  'no-reader': t('The reader of codes could not be loaded. Reload the page, or paste the link.'),
};

export function ScanPhoto({ onText }: ScanPhotoProps) {
  const [state, setState] = useState<State>('nothing-yet');
  const read = async (file: File) => {
    setState('reading');
    const found = await textInPhoto(file);
    setState(typeof found === 'string' ? found : 'nothing-yet');
    if (typeof found !== 'string') onText(found.text);
  };
  return (
    <div class="scan-paste">
      <FileButton
        words={t('Read from a photo')}
        label={t('Photo of the code')}
        onFile={(file) => void read(file)}
      />
      <p role="status">{WORDS[state]}</p>
    </div>
  );
}

/** CSS px of the longer side, tried in turn: what is unreadable large may read once grain is gone. */
const SIZES = [1600, 2600, 900, 500] as const;

async function textInPhoto(file: File): Promise<{ readonly text: string } | State> {
  const canvas = document.createElement('canvas');
  const reader = openCodeReader();
  try {
    for (const size of SIZES) {
      if (!(await drawPhoto(file, canvas, size))) return 'no-picture';
      const ctx = canvas.getContext('2d', { willReadFrequently: true });
      const image = ctx?.getImageData(0, 0, canvas.width, canvas.height);
      if (image === undefined) return 'no-picture';
      const answer = await reader.read({ image, patience: 'photo' });
      if (answer === 'failed') return 'no-reader';
      if (answer.text !== null) return { text: answer.text };
    }
    return 'no-code';
  } finally {
    reader.close();
  }
}
