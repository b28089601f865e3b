/** Fields of one block of the weft. */
import type { Units } from '../../../../../core/measure/length.ts';
import { LIMITS } from '../../../../../core/plan/limits.ts';
import type { Block, FreeBlock, LengthExtent, SolidBlock } from '../../../../../core/plan/plan.ts';
import { extentAs } from '../../../../../core/planner/blockEdits.ts';
import type { Beat } from '../../../../../core/planner/orderBands.ts';
import { t } from '../../../../language/t.ts';
import { Choice } from '../../../../parts/choice.tsx';
import { LengthField } from '../../../../parts/lengthField.tsx';
import { NumberField } from '../../../../parts/numberField.tsx';
import type { SetRow } from '../orderRows.ts';
import { AlternationFields } from './alternationFields.tsx';
import { BlockMore } from './blockMore.tsx';
import { GroupFields } from './groupFields.tsx';
import { NameField } from './nameField.tsx';
import { PlannedBy } from './plannedBy.tsx';
import { sizeWords } from './sizeWords.ts';
import { LENGTH_STEPS } from './steps.ts';
import { YarnPicker } from './yarnPicker.tsx';

export interface BlockFieldsProps<B extends Block = Block> {
  readonly block: B;
  readonly beat: Beat;
  readonly units: Units;
  readonly path: string;
  readonly set: SetRow<Block>;
}

export function BlockFields(props: BlockFieldsProps) {
  const { block, path, set } = props;
  switch (block.kind) {
    case 'solid':
      return <SolidFields {...props} block={block} />;
    case 'alternation':
      return <AlternationFields {...props} block={block} />;
    case 'free':
      return <FreeFields {...props} block={block} />;
    case 'repeat':
    case 'mirror':
      return (
        <>
          <GroupFields group={block} path={path} set={set} />
          <NameField {...props} block={block} />
        </>
      );
  }
}

function SolidFields(props: BlockFieldsProps<SolidBlock>) {
  const { block, beat, units, path, set } = props;
  return (
    <>
      <div class="row-fields">
        <YarnPicker
          label={t('Yarn')}
          yarns={beat.yarns}
          chosen={block.yarn}
          path={`${path}.yarn`}
          onChoose={(yarn) => set({ ...block, yarn }, null)}
        />
        <SolidExtent {...props} />
      </div>
      <PlannedBy
        kinds={['length', 'picks']}
        chosen={block.extent.kind}
        onChoose={(kind) =>
          set({ ...block, extent: extentAs(kind, block, beat, LENGTH_STEPS[units]) }, null)
        }
      />
      <Parity {...props} />
      <BlockMore {...props} />
    </>
  );
}

function SolidExtent({ block, beat, units, path, set }: BlockFieldsProps<SolidBlock>) {
  const { extent } = block;
  if (extent.kind === 'picks') {
    return (
      <NumberField
        label={t('Picks')}
        value={extent.picks}
        least={1}
        most={LIMITS.picks}
        path={`${path}.extent.picks`}
        hint={sizeWords(block, beat, units)}
        onValue={(picks) =>
          set({ ...block, extent: { kind: 'picks', picks } }, `${path}.extent.picks`)
        }
      />
    );
  }
  // not for a reader
  const at = `${path}.extent.loomLength`;
  return (
    <LengthField
      label={t('Length on the loom')}
      mm={extent.loomLength}
      units={units}
      step={LENGTH_STEPS[units]}
      path={at}
      hint={sizeWords(block, beat, units)}
      onLength={(loomLength) => set({ ...block, extent: { ...extent, loomLength } }, at)}
    />
  );
}

/** Even unless asked: then its shuttle rests where it set out. */
function Parity({ block, set }: BlockFieldsProps<SolidBlock>) {
  const { extent } = block;
  if (extent.kind !== 'length') return null;
  const choose = (parity: NonNullable<LengthExtent['parity']>) => {
    const { parity: _old, ...plain } = extent;
    set({ ...block, extent: parity === 'even' ? plain : { ...plain, parity } }, null);
  };
  return (
    <Choice
      label={t('Rounded to picks that are')}
      chosen={extent.parity ?? 'even'}
      onChoose={choose}
      // Numbers of picks, not sheds.
      options={[
        { value: 'even', words: t('{of, select, picks {even} other {even}}', { of: 'picks' }) },
        { value: 'odd', words: t('{of, select, picks {odd} other {odd}}', { of: 'picks' }) },
        { value: 'any', words: t('either') },
      ]}
    />
  );
}

function FreeFields(props: BlockFieldsProps<FreeBlock>) {
  const { block, units, path, set } = props;
  const choose = (isSized: boolean) => {
    const { loomLength: _old, ...open } = block;
    set(isSized ? { ...open, loomLength: 24 * LENGTH_STEPS[units] } : open, null);
  };
  return (
    <>
      <p class="hint">
        {t(
          'At the loom each tap on a yarn is a pick of it. What you wove can become blocks afterwards.',
        )}
      </p>
      <Choice
        label={t('Length')}
        chosen={block.loomLength === undefined ? 'open' : 'about'}
        onChoose={(it) => choose(it === 'about')}
        options={[
          { value: 'open', words: t('as it comes') },
          { value: 'about', words: t('about') },
        ]}
      />
      {block.loomLength === undefined ? (
        <p class="hint">
          {t('No warp is reckoned for it: make the warp as much longer as you wish.')}
        </p>
      ) : (
        <LengthField
          label={t('Length on the loom, about')}
          mm={block.loomLength}
          units={units}
          step={LENGTH_STEPS[units]}
          path={`${path}.loomLength`}
          hint={t('The warp is reckoned with it.')}
          onLength={(loomLength) => set({ ...block, loomLength }, `${path}.loomLength`)}
        />
      )}
      <NameField {...props} block={block} />
    </>
  );
}
