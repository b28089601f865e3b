/** A yarn put on the shelf, or changed there. */
import { useState } from 'preact/hooks';
import type { Units } from '../../../core/measure/length.ts';
import type { ShelfYarn } from '../../../core/plan/shelf.ts';
import { t } from '../../language/t.ts';
import { Sheet } from '../../parts/sheet.tsx';
import { type YarnDraft, YarnForm } from '../../parts/yarnForm.tsx';
import { addYarn, changeYarn, type ShelfThing } from '../../shelf.ts';
import { settings } from '../../state.ts';
import { NOTHING_READ, readingOf, ScaleFields, type ScaleRead } from './scaleFields.tsx';
import { ShelfForm } from './shelfForm.tsx';

export interface YarnSheetProps {
  /** Null: a new one. */
  readonly yarn: ShelfYarn | null;
  readonly onRemove: (thing: ShelfThing) => void;
  readonly onClose: () => void;
}

/** A common cone to begin with; every part of it is in sight and can be changed. */
const newDraft = (units: Units): YarnDraft => ({
  name: '',
  colour: '#e6d9c0',
  fibre: 'cotton',
  count:
    units === 'inch'
      ? { system: 'cottonCount', number: 8, plies: 2 }
      : { system: 'metric', number: 16, plies: 2 },
});

export function YarnSheet({ yarn, onRemove, onClose }: YarnSheetProps) {
  const { units } = settings.value;
  const [draft, setDraft] = useState<YarnDraft>(yarn ?? newDraft(units));
  const [scale, setScale] = useState<ScaleRead>(NOTHING_READ);
  const save = () => {
    const kind = { ...draft, name: draft.name.trim() };
    if (yarn === null) addYarn(kind, readingOf(scale));
    else changeYarn({ ...yarn, ...kind });
    onClose();
  };
  return (
    <Sheet title={yarn === null ? t('New yarn') : yarn.name} onClose={onClose} wide>
      <ShelfForm save={yarn === null ? t('Put it on the shelf') : t('Save')} onSave={save}>
        {(tried) => (
          <>
            <YarnForm
              draft={draft}
              onChange={(change) => setDraft((it) => ({ ...it, ...change }))}
              wrongName={tried ? wrongName(draft.name) : null}
            >
              {yarn === null ? (
                <ScaleFields scale={scale} count={draft.count} units={units} onScale={setScale} />
              ) : null}
            </YarnForm>
            {yarn === null ? null : (
              <RemoveButton onRemove={() => onRemove({ kind: 'yarn', it: yarn })} />
            )}
          </>
        )}
      </ShelfForm>
    </Sheet>
  );
}

export function wrongName(name: string): string | null {
  return name.trim() === '' ? t('Give it a name.') : null;
}

export function RemoveButton({ onRemove }: { readonly onRemove: () => void }) {
  return (
    <button type="button" class="button" onClick={onRemove}>
      {t('Take it off the shelf')}
    </button>
  );
}
