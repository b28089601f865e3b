/** A yarn of a motif changed: another of the shelf, another colour, another beat. */

import { useEffect, useState } from 'preact/hooks';
import { replaced } from '../../../core/plan/listEdits.ts';
import type { MotifYarn } from '../../../core/plan/motif.ts';
import type { ShelfYarn } from '../../../core/plan/shelf.ts';
import { spacingLike } from '../../../core/planner/motif/changes.ts';
import { t } from '../../language/t.ts';
import { ColourPick } from '../../parts/colourPick.tsx';
import { NumberField } from '../../parts/numberField.tsx';
import { YarnDoor } from '../../parts/yarnDoor.tsx';
import { loadShelf, yarnShelf } from '../../shelf.ts';
import { settings } from '../../state.ts';
import { PER_WORDS, perUnit } from './words.ts';

export interface YarnChangeProps {
  readonly yarns: readonly MotifYarn[];
  readonly onYarns: (yarns: readonly MotifYarn[]) => void;
}

export function YarnChange({ yarns, onYarns }: YarnChangeProps) {
  const [open, setOpen] = useState<number | null>(null);
  useEffect(() => {
    void loadShelf();
  }, []);
  return (
    <section class="motif-yarn-list" aria-label={t('Its yarns')}>
      <p class="field-label">{t('Its yarns, in warp and weft')}</p>
      {yarns.map((yarn, i) => (
        <div key={yarn.letter}>
          <YarnDoor yarn={yarn} isOpen={open === i} onTurn={() => setOpen(open === i ? null : i)}>
            <YarnFields yarn={yarn} onYarn={(it) => onYarns(replaced(yarns, i, it))} />
          </YarnDoor>
        </div>
      ))}
    </section>
  );
}

interface FieldsProps {
  readonly yarn: MotifYarn;
  readonly onYarn: (yarn: MotifYarn) => void;
}

function YarnFields({ yarn, onYarn }: FieldsProps) {
  const { units } = settings.value;
  const perMm = perUnit(units);
  return (
    <>
      <FromShelf yarn={yarn} onYarn={onYarn} />
      <NumberField
        label={t('Picks of {yarn}', { yarn: yarn.name })}
        unit={t('picks {per}', { per: PER_WORDS[units] })}
        value={Math.round((perMm / yarn.pickSpacing) * 10) / 10}
        step={0.5}
        least={0.5}
        most={200}
        onValue={(picks) => {
          if (picks > 0) onYarn({ ...yarn, pickSpacing: perMm / picks });
        }}
      />
      <ColourPick
        colour={yarn.colour}
        onColour={(colour) => {
          const { shelf: _, ...rest } = yarn;
          onYarn({ ...rest, colour });
        }}
      />
    </>
  );
}

function FromShelf({ yarn, onYarn }: FieldsProps) {
  const shelf = yarnShelf.value;
  if (shelf.length === 0) return null;
  return (
    <div class="row">
      {shelf.map((it) => (
        <button
          type="button"
          key={it.id}
          class="button motif-shelf-yarn"
          aria-pressed={yarn.shelf === it.id}
          onClick={() => onYarn(asMotifYarn(yarn, it))}
        >
          <span class="skein" style={{ backgroundColor: it.colour }} aria-hidden="true" />
          {it.name}
        </button>
      ))}
    </div>
  );
}

/** Its beat as that of the yarn it takes the place of, its thickness allowed for. */
function asMotifYarn(old: MotifYarn, { id, weighed: _, ...kind }: ShelfYarn): MotifYarn {
  return {
    ...kind,
    letter: old.letter,
    pickSpacing: spacingLike(old, kind.count),
    shelf: id,
  };
}
