/** How it will be woven, and what is allowed for. */
import { beatShown, spacingOf } from '../../../core/measure/beat.ts';
import type { Units } from '../../../core/measure/length.ts';
import { SIDES, type Weaving } from '../../../core/plan/plan.ts';
import { SIDE_WORDS } from '../../format.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { NumberField } from '../../parts/numberField.tsx';
import { still } from '../../parts/still.ts';
import { editPlan } from '../../planning.ts';
import { AllowanceFields } from './allowanceFields.tsx';
import type { PartProps } from './part.ts';

/** Fields are drawn again only where what they show has changed: a key typed in one is shown sooner. */
export function WeavingPart({ plan }: PartProps) {
  const { hand, workingSide, newYarnComesUp, outerFringes } = plan.weaving;
  const { carryLimit, cuttingAllowance, tailWidths, picksBeforeStitching, stitchGroup } =
    plan.weaving;
  return (
    <div class="part-fields">
      <BeatField plan={plan} />
      <HandFields {...{ hand, workingSide, newYarnComesUp, outerFringes }} />
      <EdgeFields
        {...{ carryLimit, cuttingAllowance, tailWidths, picksBeforeStitching, stitchGroup }}
        units={plan.units}
      />
      <AllowanceFields plan={plan} />
    </div>
  );
}

const setWeaving = (change: Partial<Weaving>, about: string) =>
  editPlan((it) => ({ ...it, weaving: { ...it.weaving, ...change } }), about);

/** Picks per inch or per centimetre on the loom; stored as the spacing of picks. */
function BeatField({ plan }: PartProps) {
  const { units, weaving } = plan;
  return (
    <NumberField
      label={t('Picks on the loom')}
      value={beatShown(weaving.pickSpacing, units)}
      least={0.5}
      most={100}
      step={0.5}
      unit={units === 'inch' ? t('per inch') : t('per cm')}
      path="weaving.pickSpacing"
      onValue={(value) => value > 0 && setWeaving({ pickSpacing: spacingOf(value, units) }, 'beat')}
    />
  );
}

type Hands = Pick<Weaving, 'hand' | 'workingSide' | 'newYarnComesUp' | 'outerFringes'>;

const HandFields = still((weaving: Hands) => {
  const sides = SIDES.map((value) => ({ value, words: SIDE_WORDS[value] }));
  return (
    <>
      <Choice
        label={t('Controls lie under the hand on the')}
        chosen={weaving.hand}
        onChoose={(hand) => setWeaving({ hand }, 'hand')}
        options={sides}
      />
      <Choice
        label={t('Hemstitching starts on the')}
        chosen={weaving.workingSide}
        onChoose={(workingSide) => setWeaving({ workingSide }, 'side')}
        options={sides}
      />
      <Choice
        label={t('At a change the new yarn comes up')}
        chosen={weaving.newYarnComesUp}
        onChoose={(newYarnComesUp) => setWeaving({ newYarnComesUp }, 'up')}
        options={[
          { value: 'under', words: t('under the resting one') },
          { value: 'over', words: t('over it') },
        ]}
      />
      <Choice
        label={t('The outermost fringes')}
        chosen={weaving.outerFringes}
        onChoose={(outerFringes) => setWeaving({ outerFringes }, 'fringes')}
        options={[
          { value: 'from-waste', words: t('come out of the waste') },
          { value: 'own-warp', words: t('get warp of their own') },
        ]}
      />
    </>
  );
});

const FARTHEST_CARRIED: Record<Units, string> = { inch: t('1 in'), metric: t('2.5 cm') };

interface EdgeFieldsProps
  extends Pick<Weaving, 'carryLimit' | 'cuttingAllowance' | (typeof STITCHING)[number]['field']> {
  readonly units: Units;
}

const EdgeFields = still(({ units, ...weaving }: EdgeFieldsProps) => {
  return (
    <div class="fields">
      <LengthField
        label={t('A yarn is carried up to')}
        word="carried"
        mm={weaving.carryLimit}
        units={units}
        path="weaving.carryLimit"
        onLength={(carryLimit) => setWeaving({ carryLimit }, 'carry')}
        hint={t('Beyond it the yarn is cut. In practice up to about {length}.', {
          length: FARTHEST_CARRIED[units],
        })}
      />
      <LengthField
        label={t('For the scissors, between pieces')}
        mm={weaving.cuttingAllowance}
        units={units}
        path="weaving.cuttingAllowance"
        onLength={(cuttingAllowance) => setWeaving({ cuttingAllowance }, 'cutting')}
      />
      {STITCHING.map(({ field, ...words }) => (
        <NumberField
          key={field}
          {...words}
          value={weaving[field]}
          path={`weaving.${field}`}
          onValue={(value) => setWeaving({ [field]: value }, field)}
        />
      ))}
    </div>
  );
});

const STITCHING = [
  {
    field: 'tailWidths',
    label: t('Hemstitch tail'),
    word: 'hemstitch',
    least: 1,
    most: 20,
    step: 0.5,
    unit: t('widths'),
    hint: t('3 to 4 widths in practice.'),
  },
  {
    field: 'picksBeforeStitching',
    label: t('Picks before stitching'),
    least: 1,
    most: 100,
    step: 1,
    unit: t('picks'),
    hint: t('3 to 5 picks in practice.'),
  },
  {
    field: 'stitchGroup',
    label: t('Stitched together'),
    least: 1,
    most: 100,
    step: 1,
    unit: t('ends'),
    hint: t('How many ends one stitch takes.'),
  },
] as const;
