/** Loom and heddle: what the warp must fit. */
import type { Units } from '../../../core/measure/length.ts';
import {
  type Dents,
  LOOM_KINDS,
  type Loom,
  type LoomKind,
  type Piece,
  type Plan,
  SHED_WORDS,
} from '../../../core/plan/plan.ts';
import { countedPer } from '../../../core/planner/countedPer.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { NumberField } from '../../parts/numberField.tsx';
import { editPlan } from '../../planning.ts';
import { HeddleShelf } from './heddleShelf.tsx';
import type { PartProps } from './part.ts';

const KIND_WORDS: Record<LoomKind, string> = {
  'rigid-heddle': t('Rigid heddle'),
  shaft: t('Shafts'),
};

const setLoom = (change: Partial<Loom>, about: string) =>
  editPlan((it) => ({ ...it, loom: { ...it.loom, ...change } }), about);

export function LoomPart({ plan }: PartProps) {
  return (
    <div class="part-fields">
      <Choice
        label={t('Units')}
        chosen={plan.units}
        onChoose={(units) => editPlan((it) => ({ ...it, units }))}
        options={[
          { value: 'inch', words: t('Inches') },
          { value: 'metric', words: t('Centimetres') },
        ]}
      />
      <Choice
        label={t('Loom')}
        chosen={plan.loom.kind}
        onChoose={(kind) => editPlan((it) => onLoom(it, kind))}
        options={LOOM_KINDS.map((value) => ({ value, words: KIND_WORDS[value] }))}
      />
      <HeddleShelf plan={plan} />
      <HeddleFields plan={plan} />
      <LoomLengths plan={plan} />
    </div>
  );
}

const LENGTHS = [
  { field: 'weavingWidth', label: t('Weaving width') },
  { field: 'frontTieOn', label: t('Tie-on at the front') },
  { field: 'backWaste', label: t('Waste at the back') },
  { field: 'weavingDepth', label: t('Woven before the warp must advance') },
] as const;

const WASTE: Record<LoomKind, Record<Units, string>> = {
  'rigid-heddle': { inch: t('18 to 24 in'), metric: t('45 to 60 cm') },
  shaft: { inch: t('27 to 36 in'), metric: t('70 to 90 cm') },
};

function LoomLengths({ plan }: PartProps) {
  const { loom, units } = plan;
  return (
    <div class="fields">
      {LENGTHS.map(({ field, label }) => (
        <LengthField
          key={field}
          label={label}
          word={field === 'backWaste' ? 'waste' : undefined}
          mm={loom[field]}
          units={units}
          path={`loom.${field}`}
          onLength={(mm) => setLoom({ [field]: mm }, field)}
          {...(field === 'backWaste'
            ? {
                hint: t('In practice front and back together: {lengths}.', {
                  lengths: WASTE[loom.kind][units],
                }),
              }
            : {})}
        />
      ))}
    </div>
  );
}

function HeddleFields({ plan }: PartProps) {
  const { dents, kind } = plan.loom;
  return (
    <>
      <Choice
        label={kind === 'rigid-heddle' ? t('Heddle counted') : t('Reed counted')}
        chosen={dents.per}
        onChoose={(per) => setLoom({ dents: countedPer(dents, per) }, 'per')}
        options={[
          { value: 'inch', words: t('per inch') },
          { value: '10cm', words: t('per 10 cm') },
        ]}
      />
      <DentFields plan={plan} />
    </>
  );
}

function DentFields({ plan }: PartProps) {
  const { kind, dents, endsPerDent } = plan.loom;
  const unit = dents.per === 'inch' ? t('per inch') : t('per 10 cm');
  const range = { least: 1, most: 200, unit };
  return (
    <div class="fields">
      <NumberField
        label={t('{loom, select, shaft {Dents} other {Slots and holes}} as sold', { loom: kind })}
        value={dents.count}
        step={0.5}
        {...range}
        path="loom.dents.count"
        onValue={(count) => setLoom({ dents: { ...dents, count } }, 'dents')}
      />
      <NumberField
        label={t('{loom, select, shaft {Dents} other {Slots and holes}} as counted', {
          loom: kind,
        })}
        value={dents.made ?? dents.count}
        step={0.1}
        {...range}
        path="loom.dents.made"
        onValue={(made) => setLoom({ dents: madeAs(dents, made) }, 'made')}
        hint={t('Where your own count differs: 12.5 sold may be 12.7 made.')}
      />
      {kind === 'shaft' ? (
        <NumberField
          label={t('Ends per dent')}
          value={endsPerDent}
          least={1}
          most={8}
          path="loom.endsPerDent"
          onValue={(ends) => setLoom({ endsPerDent: ends }, 'per-dent')}
        />
      ) : null}
    </div>
  );
}

function madeAs({ count, per }: Dents, made: number): Dents {
  return made === count ? { count, per } : { count, per, made };
}

/** The same plan on another kind of loom: its sheds and its first end are named differently. */
function onLoom(plan: Plan, kind: LoomKind): Plan {
  const from = SHED_WORDS[plan.loom.kind];
  const to = SHED_WORDS[kind];
  const pieces = plan.pieces.map((piece): Piece => {
    const shed = (from as readonly string[]).indexOf(piece.startShed);
    return { ...piece, startShed: to[shed === 1 ? 1 : 0] };
  });
  const { firstEnd, ...warp } = plan.warp;
  const loom = { ...plan.loom, kind, ...(kind === 'rigid-heddle' ? { endsPerDent: 1 } : {}) };
  const placed = kind === 'rigid-heddle' ? { ...warp, firstEnd: firstEnd ?? 'slot' } : warp;
  return { ...plan, loom, pieces, warp: placed };
}
