/** How it will be woven, and what is allowed for, each with where its figure comes from. */

import { beatShown, spacingOf } from '../../../core/measure/beat.ts';
import type { Units } from '../../../core/measure/length.ts';
import {
  ALLOWANCE_NAMES,
  type Allowance,
  type AllowanceName,
  type Plan,
  SIDES,
  type Weaving,
} from '../../../core/plan/plan.ts';
import { likelyShares } from '../../../core/plan/sureness.ts';
import { count, percent } from '../../format.ts';
import { knownOf, learntAllowance } from '../../learning.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { NumberField } from '../../parts/numberField.tsx';
import { editPlan, planSample } from '../../planning.ts';
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
      <SampleFirst plan={plan} />
      <div class="fields">
        {ALLOWANCE_NAMES.map((name) => (
          <AllowanceField key={name} plan={plan} name={name} />
        ))}
      </div>
    </div>
  );
}

/** Where nothing is learnt of this cloth yet, the way to learn it before the plan is woven. */
function SampleFirst({ plan }: PartProps) {
  if (knownOf(plan) !== null) return null;
  return (
    <div class="sample-first">
      <p class="hint">
        Nothing is learnt of this cloth yet. A small sample, washed and measured, puts your own
        figures here.
      </p>
      <button type="button" class="button" onClick={planSample}>
        Plan a sample first
      </button>
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

interface AllowanceFieldProps {
  readonly plan: Plan;
  readonly name: AllowanceName;
}

function AllowanceField({ plan, name }: AllowanceFieldProps) {
  const { share, from } = plan.allowances[name];
  const learnt = from.kind === 'typed' ? learntAllowance(plan, name) : null;
  return (
    <div class="allowance">
      <NumberField
        label={ALLOWANCES[name]}
        value={Math.round(share * 1000) / 10}
        least={-20}
        most={60}
        step={0.5}
        unit="%"
        path={`allowances.${name}.share`}
        onValue={(value) =>
          setAllowance(name, { share: value / 100, from: { kind: 'typed' } }, name)
        }
        hint={originWords(plan.allowances[name], name)}
      />
      {learnt === null ? null : (
        <button
          type="button"
          class="button"
          onClick={() => setAllowance(name, learnt, `${name} learnt`)}
        >
          Use {percent(learnt.share)}, {originWords(learnt, name)}
        </button>
      )}
    </div>
  );
}

function setAllowance(name: AllowanceName, allowance: Allowance, about: string): void {
  editPlan((it) => ({ ...it, allowances: { ...it.allowances, [name]: allowance } }), about);
}

/** Where a share comes from; of a learnt one also where the next piece is likely to lie. */
export function originWords({ share, from }: Allowance, name: AllowanceName): string {
  switch (from.kind) {
    case 'practice':
      return 'common practice';
    case 'typed':
      return 'as you typed it';
    case 'source':
      return `from ${from.name}`;
    case 'washed': {
      const { warps = 1 } = from;
      const pieces = `${count(from.pieces, 'washed piece')}${warps > 1 ? ` of ${warps} warps` : ''}`;
      const source = name === 'warpTaken' ? count(warps, 'measured warp') : pieces;
      const { from: least, to: most } = likelyShares({ share, from });
      const near = from.match === 'near' ? ', of cloth near this one' : '';
      return `from ${source}${near}; likely ${percent(least)} to ${percent(most)}`;
    }
  }
}
