/** Fields of an alternation of the weft: who takes turns, how far, and on which yarn it opens and closes. */
import { LIMITS } from '../../../../../core/plan/limits.ts';
import type { AlternationBlock } from '../../../../../core/plan/plan.ts';
import { closingOn, extentAs, stepsOf, withCycle } from '../../../../../core/planner/blockEdits.ts';
import { nearestClosing } from '../../../../../core/planner/orderBands.ts';
import { t } from '../../../../language/t.ts';
import { Choice } from '../../../../parts/choice.tsx';
import { LengthField } from '../../../../parts/lengthField.tsx';
import { NumberField } from '../../../../parts/numberField.tsx';
import { ProblemsAt } from '../../../../parts/problemsAt.tsx';
import type { BlockFieldsProps } from './blockFields.tsx';
import { BlockMore } from './blockMore.tsx';
import { CycleFields } from './cycleFields.tsx';
import { PlannedBy } from './plannedBy.tsx';
import { sizeWords } from './sizeWords.ts';
import { LENGTH_STEPS } from './steps.ts';
import { YarnPicker } from './yarnPicker.tsx';

type Props = BlockFieldsProps<AlternationBlock>;

export function AlternationFields(props: Props) {
  const { block, beat, units, path, set } = props;
  return (
    <>
      <CycleFields
        cycle={block.cycle.map(({ yarn, picks }) => ({ yarn, count: picks }))}
        yarns={beat.yarns}
        thread="picks"
        most={LIMITS.picks}
        path={`${path}.cycle`}
        onCycle={(cycle, about) => {
          const turns = cycle.map(({ yarn, count: picks }) => ({ yarn, picks }));
          set(withCycle(block, turns), about);
        }}
      />
      <Path {...props} />
      <PlannedBy
        kinds={['length', 'turns', 'picks']}
        chosen={block.extent.kind}
        onChoose={(kind) =>
          set({ ...block, extent: extentAs(kind, block, beat, LENGTH_STEPS[units]) }, null)
        }
      />
      <Extent {...props} />
      <Ends {...props} />
      <BlockMore {...props} />
    </>
  );
}

/** With two yarns there and back is the same as round. */
function Path({ block, path, set }: Props) {
  const isOffered = block.cycle.length > 2 || block.path === 'there-and-back';
  return (
    <>
      {isOffered ? (
        <Choice
          label={t('The yarns take turns')}
          chosen={block.path}
          onChoose={(it) => set({ ...block, path: it }, null)}
          options={[
            { value: 'round', words: t('round and round') },
            { value: 'there-and-back', words: t('there and back') },
          ]}
        />
      ) : null}
      <ProblemsAt path={`${path}.path`} />
    </>
  );
}

function Extent({ block, beat, units, path, set }: Props) {
  const { extent } = block;
  const hint = sizeWords(block, beat, units);
  const at = `${path}.extent.${extent.kind === 'length' ? 'loomLength' : extent.kind}`;
  switch (extent.kind) {
    case 'length':
      return (
        <LengthField
          label={t('Length on the loom')}
          mm={extent.loomLength}
          units={units}
          step={LENGTH_STEPS[units]}
          path={at}
          hint={hint}
          onLength={(loomLength) => set({ ...block, extent: { ...extent, loomLength } }, at)}
        />
      );
    case 'turns':
    case 'picks': {
      const isTurns = extent.kind === 'turns';
      const next = (n: number) =>
        isTurns ? ({ kind: 'turns', turns: n } as const) : ({ kind: 'picks', picks: n } as const);
      return (
        <>
          <NumberField
            label={t('In all')}
            unit={isTurns ? t('turns') : t('picks')}
            value={isTurns ? extent.turns : extent.picks}
            least={1}
            most={LIMITS.picks}
            step={stepsOf(block)[extent.kind]}
            path={at}
            hint={hint}
            onValue={(n) => set({ ...block, extent: next(n) }, at)}
          />
          <MakeItClose block={block} beat={beat} units={units} path={path} set={set} />
        </>
      );
    }
  }
}

/** Offers the nearest number that ends in a whole turn of the closing yarn, when the one typed does not. */
function MakeItClose({ block, beat, set }: Props) {
  const { extent } = block;
  const near = nearestClosing(block, beat);
  if (near === null || extent.kind === 'length') return null;
  const [now, better] =
    extent.kind === 'turns' ? [extent.turns, near.turns] : [extent.picks, near.picks];
  if (now === better) return null;
  const fixed =
    extent.kind === 'turns'
      ? ({ kind: 'turns', turns: near.turns } as const)
      : ({ kind: 'picks', picks: near.picks } as const);
  return (
    <button
      type="button"
      class="button strong"
      onClick={() => set({ ...block, extent: fixed }, null)}
    >
      {extent.kind === 'turns'
        ? t('Make it {n, plural, one {# turn} other {# turns}}', { n: better })
        : t('Make it {n, plural, one {# pick} other {# picks}}', { n: better })}
    </button>
  );
}

function Ends({ block, beat, path, set }: Props) {
  const letters = new Set(block.cycle.map((turn) => turn.yarn));
  const inCycle = beat.yarns.filter((yarn) => letters.has(yarn.letter));
  return (
    <div class="row-ends">
      <YarnPicker
        label={t('Opens on')}
        yarns={inCycle}
        chosen={block.opens}
        path={`${path}.opens`}
        onChoose={(opens) => set({ ...block, opens }, null)}
      />
      <YarnPicker
        label={t('Closes on')}
        yarns={inCycle}
        chosen={block.closes ?? null}
        path={`${path}.closes`}
        onChoose={(closes) => set(closingOn(block, closes), null)}
        none={{ words: t('any'), onChoose: () => set(closingOn(block, null), null) }}
      />
    </div>
  );
}
