/** How it will be woven, and what is allowed for, each with where its figure comes from. */

import { beatShown, spacingOf } from '../../../core/measure/beat.ts';
import type { Units } from '../../../core/measure/length.ts';
import {
  ALLOWANCE_NAMES,
  type AllowanceName,
  type AllowanceOrigin,
  type Plan,
  SIDES,
  type Weaving,
} from '../../../core/plan/plan.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { NumberField } from '../../parts/numberField.tsx';
import { editPlan } from '../../planning.ts';
import type { PartProps } from './part.ts';

const ALLOWANCES: Record<AllowanceName, string> = {
  drawIn: 'Draw-in, of the reed width',
  relax: 'Off the loom, of the loom length',
  shrinkWidth: 'Washing, of the width',
  shrinkLength: 'Washing, of the length',
  warpTaken: 'Warp taken, over the loom length',
  weftExtra: 'Weft extra, over the reed width',
  twist: 'Twisting, of the fringe',
};

export function WeavingPart({ plan }: PartProps) {
  return (
    <div class="part-fields">
      <BeatField plan={plan} />
      <HandFields plan={plan} />
      <EdgeFields plan={plan} />
      <h3>Allowances</h3>
      <div class="fields">
        {ALLOWANCE_NAMES.map((name) => (
          <AllowanceField key={name} plan={plan} name={name} />
        ))}
      </div>
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
      label="Picks on the loom"
      value={beatShown(weaving.pickSpacing, units)}
      least={0.5}
      most={100}
      step={0.5}
      unit={units === 'inch' ? 'per inch' : 'per cm'}
      path="weaving.pickSpacing"
      onValue={(value) => value > 0 && setWeaving({ pickSpacing: spacingOf(value, units) }, 'beat')}
    />
  );
}

function HandFields({ plan }: PartProps) {
  const sides = SIDES.map((value) => ({ value, words: value }));
  const { weaving } = plan;
  return (
    <>
      <Choice
        label="Controls lie under the hand on the"
        chosen={weaving.hand}
        onChoose={(hand) => setWeaving({ hand }, 'hand')}
        options={sides}
      />
      <Choice
        label="Hemstitching starts on the"
        chosen={weaving.workingSide}
        onChoose={(workingSide) => setWeaving({ workingSide }, 'side')}
        options={sides}
      />
      <Choice
        label="At a change the new yarn comes up"
        chosen={weaving.newYarnComesUp}
        onChoose={(newYarnComesUp) => setWeaving({ newYarnComesUp }, 'up')}
        options={[
          { value: 'under', words: 'under the resting one' },
          { value: 'over', words: 'over it' },
        ]}
      />
      <Choice
        label="The outermost fringes"
        chosen={weaving.outerFringes}
        onChoose={(outerFringes) => setWeaving({ outerFringes }, 'fringes')}
        options={[
          { value: 'from-waste', words: 'come out of the waste' },
          { value: 'own-warp', words: 'get warp of their own' },
        ]}
      />
    </>
  );
}

const FARTHEST_CARRIED: Record<Units, string> = { inch: '1 in', metric: '2.5 cm' };

function EdgeFields({ plan }: PartProps) {
  const { weaving, units } = plan;
  return (
    <div class="fields">
      <LengthField
        label="A yarn is carried up to"
        mm={weaving.carryLimit}
        units={units}
        path="weaving.carryLimit"
        onLength={(carryLimit) => setWeaving({ carryLimit }, 'carry')}
        hint={`Beyond it the yarn is cut. In practice up to about ${FARTHEST_CARRIED[units]}.`}
      />
      <LengthField
        label="For the scissors, between pieces"
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
}

const STITCHING = [
  {
    field: 'tailWidths',
    label: 'Hemstitch tail',
    least: 1,
    most: 20,
    step: 0.5,
    unit: 'widths',
    hint: '3 to 4 widths in practice.',
  },
  {
    field: 'picksBeforeStitching',
    label: 'Picks before stitching',
    least: 1,
    most: 100,
    step: 1,
    unit: 'picks',
    hint: '3 to 5 picks in practice.',
  },
  {
    field: 'stitchGroup',
    label: 'Stitched together',
    least: 1,
    most: 100,
    step: 1,
    unit: 'ends',
    hint: 'How many ends one stitch takes.',
  },
] as const;

function AllowanceField({ plan, name }: { readonly plan: Plan; readonly name: AllowanceName }) {
  const { share, from } = plan.allowances[name];
  const set = (percent: number) =>
    editPlan(
      (it) => ({
        ...it,
        allowances: { ...it.allowances, [name]: { share: percent / 100, from: { kind: 'typed' } } },
      }),
      name,
    );
  return (
    <NumberField
      label={ALLOWANCES[name]}
      value={Math.round(share * 1000) / 10}
      least={-20}
      most={60}
      step={0.5}
      unit="%"
      path={`allowances.${name}.share`}
      onValue={set}
      hint={originWords(from)}
    />
  );
}

export function originWords(from: AllowanceOrigin): string {
  switch (from.kind) {
    case 'practice':
      return 'common practice';
    case 'typed':
      return 'as you typed it';
    case 'source':
      return `from ${from.name}`;
    case 'washed':
      return `from ${from.pieces} washed ${from.pieces === 1 ? 'piece' : 'pieces'}`;
  }
}
