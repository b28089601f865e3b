/** The name of a block, which few have. */
import { LIMITS } from '../../../../../core/plan/limits.ts';
import type { Block } from '../../../../../core/plan/plan.ts';
import { t } from '../../../../language/t.ts';
import { Field } from '../../../../parts/field.tsx';
import type { BlockFieldsProps } from './blockFields.tsx';

export function NameField({ block, path, set }: Pick<BlockFieldsProps, 'block' | 'path' | 'set'>) {
  return (
    <Field label={t('Name, if you like')} path={`${path}.name`}>
      <input
        type="text"
        maxLength={LIMITS.name}
        value={block.name ?? ''}
        onInput={(event) => set(named(block, event.currentTarget.value), `${path}.name`)}
      />
    </Field>
  );
}

/** A block with this name, or without one when it is empty. */
function named(block: Block, name: string): Block {
  if (name.trim() !== '') return { ...block, name };
  const { name: _old, ...rest } = block;
  // Without its optional name it is the same kind of block.
  return rest as Block;
}
