/** A note, or words to a photo, about one piece or the whole warp. */

import { useEffect, useState } from 'preact/hooks';
import type { Plan } from '../../../core/plan/plan.ts';
import { type ScaledPhoto, scalePhoto } from '../../device/scalePhoto.ts';
import { type About, keepPicture, note } from '../../journaling.ts';
import { t } from '../../language/t.ts';
import { Sheet } from '../../parts/sheet.tsx';

interface NoteProps {
  readonly plan: Plan;
  /** The piece at the fell: most notes are about it. */
  readonly piece: number;
  readonly onClose: () => void;
}

const WHOLE = 'warp';

export function NoteSheet({ plan, piece, onClose }: NoteProps) {
  const [text, setText] = useState('');
  const [about, setAbout] = useState<About>(piece);
  const save = () => {
    note(text.trim(), about);
    onClose();
  };
  return (
    <Sheet title={t('A note')} onClose={onClose}>
      <div class="form">
        <TextField label={t('Note')} text={text} onText={setText} />
        <AboutField plan={plan} about={about} onAbout={setAbout} />
        <button type="button" class="button strong" disabled={text.trim() === ''} onClick={save}>
          {t('Keep this note')}
        </button>
      </div>
    </Sheet>
  );
}

export function PhotoSheet({ plan, piece, file, onClose }: NoteProps & { readonly file: File }) {
  const [scaled, setScaled] = useState<ScaledPhoto | 'reading' | 'unreadable'>('reading');
  const [text, setText] = useState('');
  const [about, setAbout] = useState<About>(piece);
  const [keeping, setKeeping] = useState(false);
  useEffect(() => {
    void scalePhoto(file).then((it) => setScaled(it ?? 'unreadable'));
  }, [file]);
  const save = async (photo: ScaledPhoto) => {
    setKeeping(true);
    if (await keepPicture(photo, text.trim(), about)) onClose();
    else setKeeping(false);
  };
  return (
    <Sheet title={t('A photo')} onClose={onClose}>
      <div class="form">
        {typeof scaled === 'string' ? (
          <p role="status">{WORDS[scaled]}</p>
        ) : (
          <>
            <img
              class="photo-kept"
              src={`data:image/jpeg;base64,${scaled.data}`}
              alt={t('As chosen')}
            />
            <TextField label={t('What it shows')} text={text} onText={setText} />
            <AboutField plan={plan} about={about} onAbout={setAbout} />
            <button
              type="button"
              class="button strong"
              disabled={keeping}
              onClick={() => void save(scaled)}
            >
              {t('Keep this photo')}
            </button>
          </>
        )}
      </div>
    </Sheet>
  );
}

const WORDS = {
  reading: t('Reading the photo …'),
  unreadable: t('This browser cannot read that file as a picture. JPEG and PNG always work.'),
} as const;

/** As much as a page can hold. */
const LONGEST_NOTE = 2000;

interface TextFieldProps {
  readonly label: string;
  readonly text: string;
  readonly onText: (text: string) => void;
}

function TextField({ label, text, onText }: TextFieldProps) {
  return (
    <label class="field">
      <span class="field-label">{label}</span>
      <textarea
        rows={3}
        maxLength={LONGEST_NOTE}
        value={text}
        onInput={(event) => onText(event.currentTarget.value)}
      />
    </label>
  );
}

interface AboutFieldProps {
  readonly plan: Plan;
  readonly about: About;
  readonly onAbout: (about: About) => void;
}

function AboutField({ plan, about, onAbout }: AboutFieldProps) {
  return (
    <label class="field">
      <span class="field-label">{t('About')}</span>
      <select
        value={about === null ? WHOLE : String(about)}
        onChange={(event) => {
          const { value } = event.currentTarget;
          onAbout(value === WHOLE ? null : Number(value));
        }}
      >
        <option value={WHOLE}>{t('the whole warp')}</option>
        {plan.pieces.map((it, i) => (
          <option key={`${i}/${it.name}`} value={String(i)}>
            {it.name}
          </option>
        ))}
      </select>
    </label>
  );
}
