/** Loom and heddle: what the warp must fit. */
import {
  LOOM_KINDS,
  type Loom,
  type LoomKind,
  type Piece,
  type Plan,
  SHED_WORDS,
} from '../../../core/plan/plan.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { NumberField } from '../../parts/numberField.tsx';
import { editPlan } from '../../planning.ts';
import { HeddleShelf } from './heddleShelf.tsx';
import type { PartProps } from './part.ts';

const KIND_WORDS: Record<LoomKind, string> = {
  'rigid-heddle': 'Rigid heddle',
  shaft: 'Shafts',
};

export function LoomPart({ plan }: PartProps) {
  const { loom, units } = plan;
  const set = (change: Partial<Loom>, about: string) =>
    editPlan((it) => ({ ...it, loom: { ...it.loom, ...change } }), about);
  return (
    <div class="part-fields">
      <Choice
        label="Units"
        chosen={units}
        onChoose={(it) => editPlan((at) => ({ ...at, units: it }))}
        options={[
          { value: 'inch', words: 'Inches' },
          { value: 'metric', words: 'Centimetres' },
        ]}
      />
      <Choice
        label="Loom"
        chosen={loom.kind}
        onChoose={(kind) => editPlan((it) => onLoom(it, kind))}
        options={LOOM_KINDS.map((value) => ({ value, words: KIND_WORDS[value] }))}
      />
      <HeddleFields plan={plan} onLoom={set} />
      <div class="fields">
        <LengthField label="Weaving width" mm={loom.weavingWidth} units={units} path="loom.weavingWidth" onLength={(weavingWidth) => set({ weavingWidth }, 'width')} />
        <LengthField label="Tie-on at the front" mm={loom.frontTieOn} units={units} path="loom.frontTieOn" onLength={(frontTieOn) => set({ frontTieOn }, 'front')} />
        <LengthField label="Waste at the back" mm={loom.backWaste} units={units} path="loom.backWaste" onLength={(backWaste) => set({ backWaste }, 'back')} hint={loom.kind === 'rigid-heddle' ? 'Front and back together: 18 to 24 in in practice.' : 'Front and back together: 27 to 36 in in practice.'} />
        <LengthField label="Woven before the warp must advance" mm={loom.weavingDepth} units={units} path="loom.weavingDepth" onLength={(weavingDepth) => set({ weavingDepth }, 'depth')} />
      </div>
    </div>
  );
}

interface HeddleFieldsProps extends PartProps {
  readonly onLoom: (change: Partial<Loom>, about: string) => void;
}

function HeddleFields({ plan, onLoom }: HeddleFieldsProps) {
  const { loom } = plan;
  const { dents } = loom;
  const unit = dents.per === 'inch' ? 'per inch' : 'per 10 cm';
  const name = loom.kind === 'rigid-heddle' ? 'Slots and holes' : 'Dents';
  const setMade = (made: number) =>
    onLoom({ dents: made === dents.count ? { count: dents.count, per: dents.per } : { ...dents, made } }, 'made');
  return (
    <>
      <HeddleShelf plan={plan} />
      <Choice
        label="Counted"
        chosen={dents.per}
        onChoose={(per) => onLoom({ dents: { ...dents, per } }, 'per')}
        options={[
          { value: 'inch', words: 'per inch' },
          { value: '10cm', words: 'per 10 cm' },
        ]}
      />
      <div class="fields">
        <NumberField label={`${name} as sold`} value={dents.count} least={1} most={200} step={0.5} unit={unit} path="loom.dents.count" onValue={(count) => onLoom({ dents: { ...dents, count } }, 'dents')} />
        <NumberField label={`${name} as counted`} value={dents.made ?? dents.count} least={1} most={200} step={0.1} unit={unit} path="loom.dents.made" onValue={setMade} hint="Where your own count differs: 12.5 sold may be 12.7 made." />
        {loom.kind === 'shaft' ? (
          <NumberField label="Ends per dent" value={loom.endsPerDent} least={1} most={8} path="loom.endsPerDent" onValue={(endsPerDent) => onLoom({ endsPerDent }, 'per-dent')} />
        ) : null}
      </div>
    </>
  );
}

/** The same plan on another kind of loom: its sheds and its first end are named differently. */
function onLoom(plan: Plan, kind: LoomKind): Plan {
  const from = SHED_WORDS[plan.loom.kind];
  const to = SHED_WORDS[kind];
  const pieces = plan.pieces.map((piece): Piece => {
    const shed = from.findIndex((word) => word === piece.startShed);
    return { ...piece, startShed: to[shed === 1 ? 1 : 0] };
  });
  const { firstEnd, ...warp } = plan.warp;
  const loom = { ...plan.loom, kind, ...(kind === 'rigid-heddle' ? { endsPerDent: 1 } : {}) };
  const placed = kind === 'rigid-heddle' ? { ...warp, firstEnd: firstEnd ?? 'slot' } : warp;
  return { ...plan, loom, pieces, warp: placed };
}
