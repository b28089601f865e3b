/** How it will be woven, and what is allowed for, each with where its figure comes from. */

import { useMemo } from 'preact/hooks';
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
import { SIDE_WORDS } from '../../format.ts';
import { t } from '../../language/t.ts';
import { knownOf, learntAllowance } from '../../learning.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { NumberField } from '../../parts/numberField.tsx';
import { percent } from '../../percent.ts';
import { editPlan, planSample } from '../../planning.ts';
import type { TermId } from '../words/terms.ts';
import type { PartProps } from './part.ts';

const ALLOWANCES: Record<AllowanceName, string> = {
  drawIn: t('Draw-in, of the reed width'),
  relax: t('Off the loom, of the loom length'),
  shrinkWidth: t('Washing, of the width'),
  shrinkLength: t('Washing, of the length'),
  warpTaken: t('Warp taken, over the loom length'),
  weftExtra: t('Weft extra, over the reed width'),
  twist: t('Twisting, of the fringe'),
};

const EXPLAINED: Partial<Record<AllowanceName, TermId>> = {
  drawIn: 'draw-in',
  relax: 'relax',
  shrinkWidth: 'shrinkage',
  shrinkLength: 'shrinkage',
  warpTaken: 'take-up',
};

/** Fields are drawn again only where what they show has changed: a key typed in one is shown sooner. */
export function WeavingPart({ plan }: PartProps) {
  return (
    <div class="part-fields">
      <BeatField plan={plan} />
      {useHandFields(plan.weaving)}
      {useEdgeFields(plan.weaving, plan.units)}
      <h3>{t('Allowances')}</h3>
      <SampleFirst plan={plan} />
      <div class="fields">{useAllowanceFields(plan)}</div>
    </div>
  );
}

/** Where nothing is learnt of this cloth yet, the way to learn it before the plan is woven. */
function SampleFirst({ plan }: PartProps) {
  if (knownOf(plan) !== null) return null;
  return (
    <div class="sample-first">
      <p class="hint">
        {t(
          'Nothing is learnt of this cloth yet. A small sample, washed and measured, puts your own figures here.',
        )}
      </p>
      <button type="button" class="button" onClick={planSample}>
        {t('Plan a sample first')}
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

function useHandFields({ hand, workingSide, newYarnComesUp, outerFringes }: Weaving) {
  return useMemo(
    () => <HandFields {...{ hand, workingSide, newYarnComesUp, outerFringes }} />,
    [hand, workingSide, newYarnComesUp, outerFringes],
  );
}

type Hands = Pick<Weaving, 'hand' | 'workingSide' | 'newYarnComesUp' | 'outerFringes'>;

function HandFields(weaving: Hands) {
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
}

const FARTHEST_CARRIED: Record<Units, string> = { inch: t('1 in'), metric: t('2.5 cm') };

function useEdgeFields(weaving: Weaving, units: Units) {
  const { carryLimit, cuttingAllowance, tailWidths, picksBeforeStitching, stitchGroup } = weaving;
  return useMemo(
    () => (
      <EdgeFields
        units={units}
        weaving={{ carryLimit, cuttingAllowance, tailWidths, picksBeforeStitching, stitchGroup }}
      />
    ),
    [carryLimit, cuttingAllowance, tailWidths, picksBeforeStitching, stitchGroup, units],
  );
}

interface EdgeFieldsProps {
  readonly units: Units;
  readonly weaving: Pick<
    Weaving,
    'carryLimit' | 'cuttingAllowance' | (typeof STITCHING)[number]['field']
  >;
}

function EdgeFields({ weaving, units }: EdgeFieldsProps) {
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
}

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

function useAllowanceFields(plan: Plan) {
  const { allowances } = plan;
  const learnt = ALLOWANCE_NAMES.map((name) =>
    allowances[name].from.kind === 'typed' ? learntAllowance(plan, name) : null,
  );
  return useMemo(
    () =>
      ALLOWANCE_NAMES.map((name, i) => (
        <AllowanceField
          key={name}
          name={name}
          allowance={allowances[name]}
          learnt={learnt[i] ?? null}
        />
      )),
    [allowances, ...learnt],
  );
}

interface AllowanceFieldProps {
  readonly name: AllowanceName;
  readonly allowance: Allowance;
  /** What is learnt of this cloth, where something else was typed. */
  readonly learnt: Allowance | null;
}

function AllowanceField({ name, allowance, learnt }: AllowanceFieldProps) {
  return (
    <div class="allowance">
      <NumberField
        label={ALLOWANCES[name]}
        word={EXPLAINED[name]}
        value={Math.round(allowance.share * 1000) / 10}
        least={-20}
        most={60}
        step={0.5}
        unit="%"
        path={`allowances.${name}.share`}
        onValue={(value) =>
          setAllowance(name, { share: value / 100, from: { kind: 'typed' } }, name)
        }
        hint={originWords(allowance, name)}
      />
      {learnt === null ? null : (
        <button
          type="button"
          class="button"
          onClick={() => setAllowance(name, learnt, `${name}.learnt`)}
        >
          {t('Use {share}, {origin}', {
            share: percent(learnt.share),
            origin: originWords(learnt, name),
          })}
        </button>
      )}
    </div>
  );
}

function setAllowance(name: AllowanceName, allowance: Allowance, about: string): void {
  editPlan((it) => ({ ...it, allowances: { ...it.allowances, [name]: allowance } }), about);
}

/** Where a share comes from; of a learnt one also where the next piece is likely to lie. */
function originWords({ share, from }: Allowance, name: AllowanceName): string {
  switch (from.kind) {
    case 'practice':
      return t('common practice');
    case 'typed':
      return t('as you typed it');
    case 'source':
      return t('from {source}', { source: from.name });
    case 'washed': {
      const { warps = 1 } = from;
      const likely = likelyShares({ share, from });
      const words = {
        source: name === 'warpTaken' ? measuredWords(warps) : washedWords(from.pieces, warps),
        least: percent(likely.from),
        most: percent(likely.to),
      };
      return from.match === 'near'
        ? t('from {source}, of cloth near this one; likely {least} to {most}', words)
        : t('from {source}; likely {least} to {most}', words);
    }
  }
}

const measuredWords = (n: number) =>
  t('{n, plural, one {# measured warp} other {# measured warps}}', { n });

const washedWords = (n: number, warps: number) =>
  warps > 1
    ? t('{n, plural, one {# washed piece} other {# washed pieces}} of {warps} warps', { n, warps })
    : t('{n, plural, one {# washed piece} other {# washed pieces}}', { n });
