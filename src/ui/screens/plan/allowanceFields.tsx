/** What is allowed for, each with where its figure comes from. */
import {
  ALLOWANCE_NAMES,
  type Allowance,
  type AllowanceName,
  type Plan,
} from '../../../core/plan/plan.ts';
import { likelyShares } from '../../../core/plan/sureness.ts';
import { t } from '../../language/t.ts';
import { knownOf, learntAllowance } from '../../learning.ts';
import { NumberField } from '../../parts/numberField.tsx';
import { still } from '../../parts/still.ts';
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

export function AllowanceFields({ plan }: PartProps) {
  return (
    <>
      <h3>{t('Allowances')}</h3>
      <SampleFirst plan={plan} />
      <div class="fields">{fieldsOf(plan)}</div>
    </>
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

function fieldsOf(plan: Plan) {
  const { allowances } = plan;
  return ALLOWANCE_NAMES.map((name) => (
    <AllowanceField
      key={name}
      name={name}
      allowance={allowances[name]}
      learnt={allowances[name].from.kind === 'typed' ? learntAllowance(plan, name) : null}
    />
  ));
}

interface AllowanceFieldProps {
  readonly name: AllowanceName;
  readonly allowance: Allowance;
  /** What is learnt of this cloth, where something else was typed. */
  readonly learnt: Allowance | null;
}

/** Drawn again only where what it shows has changed. */
const AllowanceField = still(({ name, allowance, learnt }: AllowanceFieldProps) => (
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
      onValue={(value) => setAllowance(name, { share: value / 100, from: { kind: 'typed' } }, name)}
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
));

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
