/** What is asked before a warp is woven by eye: only what the bench must know. */

import { useEffect, useState } from 'preact/hooks';
import type { LoomKind } from '../../../../core/plan/plan.ts';
import { asPlanYarn } from '../../../../core/plan/shelf.ts';
import {
  type ByEyeWarp,
  meantLength,
  startingByEye,
} from '../../../../core/planner/byEye/byEyePlan.ts';
import { namedYarns } from '../../../givenNames.ts';
import { loadLearnt } from '../../../learning.ts';
import { Field } from '../../../parts/field.tsx';
import { Sheet } from '../../../parts/sheet.tsx';
import { hasUnread } from '../../../parts/unread.ts';
import { gramsLeft, loadShelf, yarnShelf } from '../../../shelf.ts';
import { settings } from '../../../state.ts';
import '../../../style/fields.css';
import '../../../style/startByEye.css';
import { t } from '../../../language/t.ts';
import { planByEye, weaveByEye } from '../../../weavingByEye.ts';
import { WarpFields } from './warpFields.tsx';
import { YarnList } from './yarnList.tsx';

interface SheetProps {
  readonly onClose: () => void;
}

export function ByEyeSheet({ onClose }: SheetProps) {
  const [isRead, setRead] = useState(false);
  // The shelf and what was learnt must be there before the first figure is.
  useEffect(() => void Promise.all([loadShelf(), loadLearnt()]).then(() => setRead(true)), []);
  return (
    <Sheet title={t('Weave by eye')} onClose={onClose} wide>
      {isRead ? <ByEyeForm /> : null}
    </Sheet>
  );
}

/** So many yarns of the shelf stand on a new warp. */
const FROM_SHELF = 3;

function starting(kind: LoomKind): ByEyeWarp {
  const shelf = yarnShelf
    .peek()
    .slice(0, FROM_SHELF)
    .map((it, i) => asPlanYarn(it, 'ABC'.charAt(i), gramsLeft(it)));
  const warp = startingByEye(settings.peek().units, kind, shelf);
  return {
    ...warp,
    name: t('Woven by eye'),
    yarns: shelf.length > 0 ? shelf : namedYarns(warp.yarns),
  };
}

function ByEyeForm() {
  const [warp, setWarp] = useState(() => starting('rigid-heddle'));
  const [wrong, setWrong] = useState<string | null>(null);
  const set = (change: Partial<ByEyeWarp>) => {
    setWrong(null);
    setWarp((it) => ({ ...it, ...change }));
  };
  const go = async () => {
    const found = faultOf(warp);
    setWrong(found);
    if (found === null && (await weaveByEye(warp)).length > 0) setWrong(WRONG.other);
  };
  return (
    <form
      class="start-by-eye"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void go();
      }}
    >
      <p class="lead">
        {t(
          'No plan: each tap on a yarn is a pick. What you weave is kept pick for pick, and can become a plan afterwards.',
        )}
      </p>
      <Field label={t('Name')}>
        <input
          type="text"
          maxLength={120}
          autocomplete="off"
          value={warp.name}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => set({ name: event.currentTarget.value })}
        />
      </Field>
      <YarnList warp={warp} onChange={set} />
      <WarpFields
        warp={warp}
        onChange={set}
        onKind={(kind) => set({ loom: startingByEye(warp.units, kind, []).loom })}
      />
      <div class="start-go">
        {wrong === null ? null : (
          <p class="problem" role="alert">
            {wrong}
          </p>
        )}
        <button type="submit" class="button strong">
          {t('Weave')}
        </button>
      </div>
    </form>
  );
}

const WRONG = {
  name: t('Give the warp a name.'),
  unread: t('One of the fields above does not read yet.'),
  yarn: t('Give every yarn a name.'),
  ends: t('A warp has 1 to 10,000 ends.'),
  short: t(
    'The warp is too short: tie-on, waste and edges use it up. Make it longer, or weave fewer pieces.',
  ),
  other: t('This warp cannot be woven so. Look at the fields above.'),
} as const;

function faultOf(warp: ByEyeWarp): string | null {
  if (warp.name.trim() === '') return WRONG.name;
  if (hasUnread()) return WRONG.unread;
  if (warp.yarns.some((yarn) => yarn.name.trim() === '')) return WRONG.yarn;
  if (!(Number.isSafeInteger(warp.ends) && warp.ends >= 1 && warp.ends <= 10_000))
    return WRONG.ends;
  return meantLength(planByEye(warp)) < SHORTEST ? WRONG.short : null;
}

/** A finger's width: nobody would call less a piece. */
const SHORTEST = 20;
