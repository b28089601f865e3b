/** What few blocks need: a name, a beat of their own, what resting yarns do, where a yarn starts. */

import { beatShown, spacingOf } from '../../../../../core/measure/beat.ts';
import { LIMITS } from '../../../../../core/plan/limits.ts';
import type {
  AlternationBlock,
  Letter,
  Resting,
  Side,
  SolidBlock,
  Yarn,
} from '../../../../../core/plan/plan.ts';
import { t } from '../../../../language/t.ts';
import { Choice } from '../../../../parts/choice.tsx';
import { NumberField } from '../../../../parts/numberField.tsx';
import { ProblemsAt } from '../../../../parts/problemsAt.tsx';
import { Swatch } from '../../../../parts/swatch.tsx';
import type { BlockFieldsProps } from './blockFields.tsx';
import { NameField } from './nameField.tsx';

type Props = BlockFieldsProps<SolidBlock | AlternationBlock>;

export function BlockMore(props: Props) {
  const { block, beat, path } = props;
  return (
    <>
      <details class="fold">
        <summary>{t('More: {what}', { what: moreWords(block) })}</summary>
        <div class="row-more-fields">
          <NameField {...props} />
          <OwnBeat {...props} />
          {beat.yarns.map((yarn) => (
            <YarnHere key={yarn.letter} {...props} yarn={yarn} />
          ))}
        </div>
      </details>
      <ProblemsAt path={`${path}.resting`} inside />
      <ProblemsAt path={`${path}.starts`} inside />
    </>
  );
}

/** What of it is set, so that the fold need not be opened to know. */
function moreWords({ name, pickSpacing, resting, starts }: Props['block']): string {
  const set = [
    name === undefined ? '' : `“${name}”`,
    pickSpacing === undefined ? '' : t('its own beat'),
    Object.keys(resting ?? {}).length === 0 ? '' : t('resting yarns'),
    Object.keys(starts ?? {}).length === 0 ? '' : t('starting sides'),
  ].filter((words) => words !== '');
  return set.length === 0 ? t('name, beat, resting yarns') : set.join(', ');
}

/** Picks per inch or centimetre of this block alone. */
function OwnBeat({ block, beat, units, path, set }: Props) {
  const { pickSpacing, ...plain } = block;
  const at = `${path}.pickSpacing`;
  return (
    <div class="row-ends">
      <Choice
        label={t('Beaten')}
        chosen={pickSpacing === undefined ? 'plan' : 'own'}
        onChoose={(it) =>
          set(it === 'plan' ? plain : { ...block, pickSpacing: beat.pickSpacing }, null)
        }
        options={[
          { value: 'plan', words: t('as planned') },
          { value: 'own', words: t('its own way') },
        ]}
      />
      {pickSpacing === undefined ? (
        <ProblemsAt path={at} />
      ) : (
        <NumberField
          label={t('Picks on the loom')}
          unit={units === 'inch' ? t('per inch') : t('per cm')}
          value={beatShown(pickSpacing, units)}
          least={0.5}
          most={200}
          step={0.5}
          path={at}
          onValue={(picks) =>
            picks > 0 && set({ ...block, pickSpacing: spacingOf(picks, units) }, at)
          }
        />
      )}
    </div>
  );
}

interface YarnHereProps extends Props {
  readonly yarn: Yarn;
}

/** What one yarn does in this block while others work, and the side it starts from. */
function YarnHere({ block, yarn, path, set }: YarnHereProps) {
  const { letter } = yarn;
  const resting = block.resting?.[letter];
  const rest = (next: Resting | undefined, about: string | null = null) =>
    set(withEntry(block, 'resting', letter, next), about);
  const at = `${path}.resting.${letter}.every`;
  return (
    <fieldset class="yarn-here">
      <legend>
        <Swatch yarn={yarn} /> <span class="unseen">{letter}</span> {yarn.name}
      </legend>
      <Picked
        label={t('While others work it')}
        chosen={resting?.mode ?? 'auto'}
        options={RESTING_WORDS}
        onChoose={(mode) => rest(restingOf(mode))}
      />
      <Picked
        label={t('If it starts here, it starts')}
        chosen={block.starts?.[letter] ?? 'plan'}
        options={START_WORDS}
        onChoose={(side) =>
          set(withEntry(block, 'starts', letter, side === 'plan' ? undefined : side), null)
        }
      />
      {resting?.mode === 'catch' ? (
        <NumberField
          label={t('Caught every')}
          unit={t('{n, plural, one {pick} other {picks}}', { n: resting.every })}
          value={resting.every}
          least={1}
          most={LIMITS.picks}
          onValue={(every) => rest({ mode: 'catch', every }, at)}
        />
      ) : null}
    </fieldset>
  );
}

const RESTING_WORDS = {
  auto: t('as the plan says'),
  float: t('floats'),
  catch: t('is caught'),
  cut: t('is cut'),
} as const satisfies Record<Resting['mode'] | 'auto', string>;

const START_WORDS = {
  plan: t('where the others work'),
  left: t('on the left'),
  right: t('on the right'),
} as const satisfies Record<Side | 'plan', string>;

interface PickedProps<K extends string> {
  readonly label: string;
  readonly chosen: K;
  readonly options: Readonly<Record<K, string>>;
  readonly onChoose: (value: K) => void;
}

/** One of a few in a line: these are set so seldom that big buttons would only be in the way. */
function Picked<K extends string>({ label, chosen, options, onChoose }: PickedProps<K>) {
  const values = Object.keys(options) as K[];
  const choose = (value: string) => {
    const found = values.find((it) => it === value);
    if (found !== undefined) onChoose(found);
  };
  return (
    <label class="field">
      <span class="field-label">{label}</span>
      <select value={chosen} onChange={(event) => choose(event.currentTarget.value)}>
        {values.map((value) => (
          <option key={value} value={value}>
            {options[value]}
          </option>
        ))}
      </select>
    </label>
  );
}

function restingOf(mode: Resting['mode'] | 'auto'): Resting | undefined {
  if (mode === 'auto') return undefined;
  return mode === 'catch' ? { mode, every: 4 } : { mode };
}

/** The block with an entry of one yarn set or taken out; an empty record goes too. */
function withEntry<B extends Props['block'], K extends 'resting' | 'starts'>(
  block: B,
  key: K,
  letter: Letter,
  entry: (K extends 'resting' ? Resting : Side) | undefined,
): B {
  const { [letter]: _old, ...others } = (block[key] ?? {}) as Record<Letter, unknown>;
  const next = entry === undefined ? others : { ...others, [letter]: entry };
  const { [key]: _gone, ...rest } = block;
  return (Object.keys(next).length === 0 ? rest : { ...rest, [key]: next }) as B;
}
