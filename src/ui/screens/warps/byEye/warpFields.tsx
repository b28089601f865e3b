/** The warp that is on the loom, or soon will be: heddle, ends, length, pieces. */
import { MM_PER_INCH, WARP_STEPS } from '../../../../core/measure/length.ts';
import { endsPerMm } from '../../../../core/plan/geometry.ts';
import { LIMITS } from '../../../../core/plan/limits.ts';
import { LOOM_KINDS, type Loom, type LoomKind } from '../../../../core/plan/plan.ts';
import {
  BY_EYE_EDGES,
  type ByEyeEdge,
  type ByEyeWarp,
  evenEnds,
  meantLength,
} from '../../../../core/planner/byEye/byEyePlan.ts';
import { length } from '../../../format.ts';
import { t } from '../../../language/t.ts';
import { Choice } from '../../../parts/choice.tsx';
import { LengthField } from '../../../parts/lengthField.tsx';
import { NumberField } from '../../../parts/numberField.tsx';
import { heddleShelf } from '../../../shelf.ts';
import { planByEye } from '../../../weavingByEye.ts';

interface FieldsProps {
  readonly warp: ByEyeWarp;
  readonly onChange: (change: Partial<ByEyeWarp>) => void;
  readonly onKind: (kind: LoomKind) => void;
}

const KIND_WORDS: Record<LoomKind, string> = {
  'rigid-heddle': t('Rigid heddle'),
  shaft: t('Shafts'),
};

export function WarpFields({ warp, onChange, onKind }: FieldsProps) {
  return (
    <>
      <Choice
        label={t('Loom')}
        chosen={warp.loom.kind}
        onChoose={onKind}
        options={LOOM_KINDS.map((value) => ({ value, words: KIND_WORDS[value] }))}
      />
      <Heddles warp={warp} onChange={onChange} />
      <div class="fields">
        <SettFields warp={warp} onChange={onChange} />
        <Ends warp={warp} onChange={onChange} />
        <LengthField
          label={t('Warp length, as tied on')}
          mm={warp.warpLength}
          units={warp.units}
          step={WARP_STEPS[warp.units]}
          hint={t('Counted in steps of {step}; waste and tie-on are taken off.', {
            step: warp.units === 'inch' ? t('¼ yd') : t('10 cm'),
          })}
          onLength={(warpLength) => onChange({ warpLength })}
        />
        <NumberField
          label={t('Pieces')}
          value={warp.pieces}
          least={1}
          most={LIMITS.pieces}
          hint={pieceWords(warp)}
          onValue={(pieces) => onChange({ pieces: within(pieces, LIMITS.pieces) })}
        />
      </div>
      <Choice<ByEyeEdge>
        label={t('Each piece begins and ends')}
        chosen={warp.edge}
        onChoose={(edge) => onChange({ edge })}
        options={BY_EYE_EDGES.map((value) => ({ value, words: EDGE_WORDS[value] }))}
      />
    </>
  );
}

const EDGE_WORDS: Record<ByEyeEdge, string> = {
  // Of an edge, not of the weave.
  plain: t('{of, select, edge {plain} other {plain}}', { of: 'edge' }),
  hem: t('with a turned hem'),
  hemstitch: t('hemstitched, with a fringe'),
};

type PartProps = Pick<FieldsProps, 'warp' | 'onChange'>;

function Heddles({ warp, onChange }: PartProps) {
  const heddles = heddleShelf.value;
  if (heddles.length === 0) return null;
  const { dents } = warp.loom;
  return (
    <fieldset class="choice">
      <legend>{t('From the shelf')}</legend>
      {heddles.map((it) => (
        <button
          type="button"
          key={it.id}
          class="button"
          aria-pressed={it.dents.count === dents.count && it.dents.per === dents.per}
          onClick={() =>
            onChange(inLoom(warp, { ...warp.loom, dents: it.dents, weavingWidth: it.width }))
          }
        >
          {it.name}
        </button>
      ))}
    </fieldset>
  );
}

/** Another heddle: the warp stays as wide as it was. */
function inLoom(warp: ByEyeWarp, loom: Loom): Partial<ByEyeWarp> {
  const width = warp.ends / endsPerMm(warp.loom);
  return { loom, ends: evenEnds(width * endsPerMm(loom)) };
}

function SettFields({ warp, onChange }: PartProps) {
  const { loom } = warp;
  const { dents, kind, endsPerDent } = loom;
  const name = kind === 'rigid-heddle' ? t('Slots and holes') : t('Dents of the reed');
  return (
    <>
      <NumberField
        label={name}
        value={dents.count}
        least={1}
        most={200}
        step={0.5}
        unit={dents.per === 'inch' ? t('per inch') : t('per 10 cm')}
        onValue={(count) =>
          onChange(inLoom(warp, { ...loom, dents: { count: within(count, 200), per: dents.per } }))
        }
      />
      {kind === 'shaft' ? (
        <NumberField
          label={t('Ends per dent')}
          value={endsPerDent}
          least={1}
          most={8}
          onValue={(ends) =>
            onChange(inLoom(warp, { ...loom, endsPerDent: within(Math.round(ends), 8) }))
          }
        />
      ) : null}
    </>
  );
}

const within = (value: number, most: number) => Math.max(1, Math.min(most, value));

function Ends({ warp, onChange }: PartProps) {
  const width = warp.ends / endsPerMm(warp.loom);
  return (
    <NumberField
      label={t('Ends')}
      value={warp.ends}
      least={1}
      most={LIMITS.ends}
      step={2}
      hint={t('{width} wide in the {loom, select, shaft {reed} other {heddle}}', {
        width: length(width, warp.units),
        loom: warp.loom.kind,
      })}
      onValue={(ends) => onChange({ ends: Math.round(ends) })}
    />
  );
}

function pieceWords(warp: ByEyeWarp): string {
  const each = meantLength(planByEye(warp));
  if (each < MM_PER_INCH) return t('The warp is too short for that.');
  const far = length(each, warp.units);
  return warp.pieces === 1
    ? t('As long as you like, up to about {length} on the loom; more can follow.', { length: far })
    : t('About {length} on the loom each; nobody is held to it.', { length: far });
}
