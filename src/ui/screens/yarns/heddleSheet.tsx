/** A heddle or reed put on the shelf, or changed there. */
import { useState } from 'preact/hooks';
import { MM_PER_INCH, type Units } from '../../../core/measure/length.ts';
import type { Dents } from '../../../core/plan/plan.ts';
import type { ShelfHeddle } from '../../../core/plan/shelf.ts';
import { countedPer } from '../../../core/planner/countedPer.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { Field } from '../../parts/field.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { NumberField } from '../../parts/numberField.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { addHeddle, changeHeddle, type ShelfThing } from '../../shelf.ts';
import { settings } from '../../state.ts';
import { ShelfForm } from './shelfForm.tsx';
import { PER } from './words.ts';
import { RemoveButton, wrongName } from './yarnSheet.tsx';

export interface HeddleSheetProps {
  /** Null: a new one. */
  readonly heddle: ShelfHeddle | null;
  readonly onRemove: (thing: ShelfThing) => void;
  readonly onClose: () => void;
}

type HeddleDraft = Omit<ShelfHeddle, 'id'>;

const newDraft = (units: Units): HeddleDraft =>
  units === 'inch'
    ? { name: '', dents: { count: 10, per: 'inch' }, width: 24 * MM_PER_INCH }
    : { name: '', dents: { count: 40, per: '10cm' }, width: 600 };

export function HeddleSheet({ heddle, onRemove, onClose }: HeddleSheetProps) {
  const { units } = settings.value;
  const [draft, setDraft] = useState<HeddleDraft>(heddle ?? newDraft(units));
  const change = (by: Partial<HeddleDraft>) => setDraft((it) => ({ ...it, ...by }));
  const save = () => {
    const kept = { ...draft, name: draft.name.trim() };
    if (heddle === null) addHeddle(kept);
    else changeHeddle({ ...heddle, ...kept });
    onClose();
  };
  return (
    <Sheet title={heddle?.name ?? t('New heddle')} onClose={onClose}>
      <ShelfForm save={heddle === null ? t('Put it on the shelf') : t('Save')} onSave={save}>
        {(tried) => (
          <>
            <Field label={t('Name')} wrong={tried ? wrongName(draft.name) : null}>
              <input
                type="text"
                required
                pattern=".*\S.*"
                autocomplete="off"
                maxLength={120}
                value={draft.name}
                onInput={(event) => change({ name: event.currentTarget.value })}
              />
            </Field>
            <DentFields dents={draft.dents} onDents={(dents) => change({ dents })} />
            <LengthField
              label={t('Weaving width')}
              mm={draft.width}
              units={units}
              onLength={(width) => change({ width })}
            />
            {heddle === null ? null : (
              <RemoveButton onRemove={() => onRemove({ kind: 'heddle', it: heddle })} />
            )}
          </>
        )}
      </ShelfForm>
    </Sheet>
  );
}

interface DentFieldsProps {
  readonly dents: Dents;
  readonly onDents: (dents: Dents) => void;
}

const FEWEST = 1;
const MOST = 500;
const withinDents = (n: number) => Math.max(FEWEST, Math.min(MOST, n));

function DentFields({ dents, onDents }: DentFieldsProps) {
  const { count, per, made } = dents;
  const setMade = (counted: number) => {
    const next = withinDents(counted);
    onDents(next === count ? { count, per } : { count, per, made: next });
  };
  return (
    <>
      <Choice
        label={t('Slots and holes, or dents, counted')}
        chosen={per}
        onChoose={(next) => onDents(countedPer(dents, next))}
        options={[
          { value: 'inch', words: PER.inch },
          { value: '10cm', words: PER['10cm'] },
        ]}
      />
      <div class="fields">
        <NumberField
          label={t('As sold')}
          value={count}
          least={FEWEST}
          most={MOST}
          step={0.5}
          unit={PER[per]}
          onValue={(next) => onDents({ ...dents, count: withinDents(next) })}
        />
        <NumberField
          label={t('As you count them')}
          value={made ?? count}
          least={FEWEST}
          most={MOST}
          step={0.1}
          unit={PER[per]}
          hint={t('Where it differs: 12.5 sold may be 12.7 made.')}
          onValue={setMade}
        />
      </div>
    </>
  );
}
