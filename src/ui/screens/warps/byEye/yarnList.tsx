/** The yarns of a warp to be woven by eye: from the shelf or new; any of them may be thrown. */

import { useState } from 'preact/hooks';
import { removed, replaced } from '../../../../core/plan/listEdits.ts';
import type { Yarn } from '../../../../core/plan/plan.ts';
import { asPlanYarn } from '../../../../core/plan/shelf.ts';
import type { ByEyeWarp } from '../../../../core/planner/byEye/byEyePlan.ts';
import { freeLetter } from '../../../../core/planner/nextYarn.ts';
import { freshYarn } from '../../../givenNames.ts';
import { t } from '../../../language/t.ts';
import { Choice } from '../../../parts/choice.tsx';
import { YarnDoor } from '../../../parts/yarnDoor.tsx';
import { YarnForm } from '../../../parts/yarnForm.tsx';
import { gramsLeft, yarnShelf } from '../../../shelf.ts';

interface ListProps {
  readonly warp: ByEyeWarp;
  readonly onChange: (change: Partial<ByEyeWarp>) => void;
}

export function YarnList({ warp, onChange }: ListProps) {
  const [open, setOpen] = useState<number | null>(null);
  return (
    <section class="start-yarns" aria-label={t('Yarns')}>
      <h3>{t('Yarns')}</h3>
      <ul>
        {warp.yarns.map((yarn, i) => (
          <li key={yarn.letter}>
            <YarnDoor yarn={yarn} isOpen={open === i} onTurn={() => setOpen(open === i ? null : i)}>
              <YarnFields warp={warp} index={i} onChange={onChange} onGone={() => setOpen(null)} />
            </YarnDoor>
          </li>
        ))}
      </ul>
      <AddYarn warp={warp} onChange={onChange} />
      {warp.yarns.length < 2 ? null : (
        <Choice
          label={t('The warp is of')}
          chosen={warp.warpYarn}
          onChoose={(warpYarn) => onChange({ warpYarn })}
          options={warp.yarns.map(({ letter, name }) => ({
            value: letter,
            words: `${letter} ${name}`,
          }))}
        />
      )}
    </section>
  );
}

interface FieldsProps extends ListProps {
  readonly index: number;
  readonly onGone: () => void;
}

function YarnFields({ warp, index, onChange, onGone }: FieldsProps) {
  const yarn = warp.yarns[index];
  if (yarn === undefined) return null;
  const takeOut = () => {
    const yarns = removed(warp.yarns, index);
    const stays = yarns.some((it) => it.letter === warp.warpYarn);
    onChange({ yarns, ...(stays ? {} : { warpYarn: yarns[0]?.letter ?? warp.warpYarn }) });
    onGone();
  };
  return (
    <>
      <YarnForm
        draft={yarn}
        onChange={(change) =>
          onChange({ yarns: replaced(warp.yarns, index, { ...yarn, ...change }) })
        }
        wrongName={yarn.name.trim() === '' ? t('Give it a name.') : null}
      />
      <button type="button" class="button" disabled={warp.yarns.length === 1} onClick={takeOut}>
        {t('Take {yarn} out', { yarn: yarn.name })}
      </button>
    </>
  );
}

function AddYarn({ warp, onChange }: ListProps) {
  const letter = freeLetter(warp.yarns);
  if (letter === null) return null;
  const taken = new Set(warp.yarns.map((yarn) => yarn.shelf));
  const offered = yarnShelf.value.filter((it) => !taken.has(it.id));
  const add = (yarn: Yarn) => onChange({ yarns: [...warp.yarns, yarn] });
  return (
    <div class="row">
      <button type="button" class="button" onClick={() => add(freshYarn(warp.yarns, letter))}>
        {t('Add a yarn')}
      </button>
      {offered.map((it) => (
        <button
          type="button"
          key={it.id}
          class="button start-shelf"
          onClick={() => add(asPlanYarn(it, letter, gramsLeft(it)))}
        >
          <span class="start-dot" style={{ backgroundColor: it.colour }} aria-hidden="true" />
          {it.name}
        </button>
      ))}
    </div>
  );
}
