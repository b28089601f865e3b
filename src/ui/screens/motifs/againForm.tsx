/** How a motif comes next on a warp, and what that comes to. */

import { useState } from 'preact/hooks';
import { spacingNow } from '../../../core/bench/byEye/choosing.ts';
import { weaveAgain, yarnsFor } from '../../../core/bench/byEye/weaveAgain.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import type { Units } from '../../../core/measure/length.ts';
import type { Motif } from '../../../core/plan/motif.ts';
import {
  groundOf,
  type KeptBy,
  mirroredMotif,
  onGround,
} from '../../../core/planner/motif/changes.ts';
import { loomLeft } from '../../../core/planner/motif/loomLeft.ts';
import { inARow, repeatsWithin } from '../../../core/planner/motif/repeats.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { Stepper } from '../../parts/stepper.tsx';
import { weaveNext } from '../../weavingAgain.ts';
import { KeptByChoice } from './keptBy.tsx';
import { MotifPicture } from './motifPicture.tsx';
import { COMES_NEXT, sizeWords } from './words.ts';
import { isWhole, known, type Letters, YarnRows } from './yarnRows.tsx';

export interface AgainFormProps {
  readonly motif: Motif;
  /** The id of the warp, and how far it is. */
  readonly warp: string;
  readonly progress: Progress;
}

interface Wanted {
  readonly letters: Letters;
  readonly by: KeptBy;
  readonly way: 'asItIs' | 'thereAndBack';
  readonly how: 'times' | 'through';
  readonly times: number;
  /** Loom length to fill. */
  readonly fill: number;
}

const MOST_TIMES = 99;

export function AgainForm({ motif, warp, progress }: AgainFormProps) {
  const { course, pick } = progress;
  const { plan } = course;
  const [wanted, setWanted] = useState<Wanted>(() => ({
    letters: yarnsFor(motif, plan),
    by: 'picks',
    way: 'asItIs',
    how: 'times',
    times: 1,
    fill: loomLeft(course, pick),
  }));
  const set = (change: Partial<Wanted>) => setWanted({ ...wanted, ...change });
  const there = motifThere(motif, progress, wanted);
  const isBeatSame = there.kept.picks === there.kept.length;
  const next = blocksOf(there.motif, wanted);
  const whole = isWhole(motif, wanted.letters);
  const isSound =
    next !== null && whole && weaveAgain(course, pick, next.blocks, next.rest) !== null;
  return (
    <div class="form motif-again">
      <MotifPicture motif={there.motif} />
      <p class="motif-size">{t('{size}, once', { size: sizeWords(there.motif, plan.units) })}</p>
      <YarnRows
        motif={motif}
        yarns={plan.yarns}
        letters={wanted.letters}
        onLetters={(letters) => set({ letters })}
      />
      {isBeatSame ? null : <KeptByChoice chosen={wanted.by} onChoose={(by) => set({ by })} />}
      <WayChoice wanted={wanted} set={set} />
      <HowFields wanted={wanted} set={set} units={plan.units} />
      <Outcome next={next} isWhole={whole} isSound={isSound} units={plan.units} />
      <button
        type="button"
        class="button strong"
        disabled={!isSound}
        onClick={() =>
          next !== null && void weaveNext(warp, next.blocks, next.rest, COMES_NEXT(motif.name))
        }
      >
        {t('Weave it next')}
      </button>
    </div>
  );
}

/** The motif on the warp at the loom, at the beat it has now; and its blocks kept either way. */
function motifThere(motif: Motif, { course }: Progress, { letters, by, way }: Wanted) {
  const ground = groundOf(course.plan, spacingNow(course));
  const turned = way === 'asItIs' ? motif : mirroredMotif(motif, 'shared');
  const on = (kept: KeptBy) => onGround(turned, ground, known(letters), kept);
  if (!isWhole(motif, letters)) return { motif: turned, kept: { picks: '', length: '' } };
  const both = { picks: on('picks'), length: on('length') };
  const told = (it: Motif) => JSON.stringify(it.blocks);
  return { motif: both[by], kept: { picks: told(both.picks), length: told(both.length) } };
}

function blocksOf(motif: Motif, { how, times, fill }: Wanted) {
  if (how === 'times') {
    return { blocks: inARow(motif, times), rest: 'kept', times, loomLength: null } as const;
  }
  const through = repeatsWithin(motif, fill, 'asBegun');
  return through === null ? null : ({ ...through, rest: 'replaced' } as const);
}

interface FieldsProps {
  readonly wanted: Wanted;
  readonly set: (change: Partial<Wanted>) => void;
}

function WayChoice({ wanted, set }: FieldsProps) {
  return (
    <Choice
      label={t('Which way')}
      chosen={wanted.way}
      onChoose={(way) => set({ way })}
      options={[
        { value: 'asItIs', words: t('As it is') },
        { value: 'thereAndBack', words: t('There and back') },
      ]}
    />
  );
}

function HowFields({ wanted, set, units }: FieldsProps & { readonly units: Units }) {
  return (
    <>
      <Choice
        label={t('How often')}
        chosen={wanted.how}
        onChoose={(how) => set({ how })}
        options={[
          { value: 'times', words: t('So many times') },
          { value: 'through', words: t('Through the rest of the piece') },
        ]}
      />
      {wanted.how === 'times' ? (
        <Stepper
          label={t('Times')}
          value={wanted.times}
          least={1}
          most={MOST_TIMES}
          onChange={(times) => set({ times })}
        />
      ) : (
        <LengthField
          label={t('Length to fill, on the loom')}
          mm={wanted.fill}
          units={units}
          onLength={(fill) => set({ fill })}
          hint={t('From the fell to where the piece’s weft ends.')}
        />
      )}
    </>
  );
}

interface OutcomeProps {
  readonly next: ReturnType<typeof blocksOf>;
  readonly isWhole: boolean;
  readonly isSound: boolean;
  readonly units: Units;
}

function Outcome(props: OutcomeProps) {
  return (
    <p role="status" class={props.isSound ? 'hint' : 'problem'}>
      {outcomeWords(props)}
    </p>
  );
}

function outcomeWords({ next, isWhole, isSound, units }: OutcomeProps): string {
  if (!isWhole) return t('Choose a yarn of this warp for each of its yarns.');
  if (next === null) return t('There is no room for it once and its first stripe to close.');
  if (!isSound) return t('It cannot come next here: the fell lies in a hem, or the plan is full.');
  if (next.loomLength === null)
    return t('What was to come follows after it; by eye goes on by eye.');
  return t(
    '{n, plural, =1 {Once} other {# times}}, and its first stripe to close: {long}. What was still to come in this piece is left out.',
    { n: next.times, long: length(next.loomLength, units) },
  );
}
