/** A motif mirrored, in other yarns, at another sett: kept as another, or changed itself. */

import { useState } from 'preact/hooks';
import { LIMITS } from '../../../core/plan/limits.ts';
import type { Motif, MotifYarn } from '../../../core/plan/motif.ts';
import type { Centre, Letter } from '../../../core/plan/plan.ts';
import {
  groundAtSett,
  type KeptBy,
  mirroredMotif,
  onGround,
} from '../../../core/planner/motif/changes.ts';
import { t } from '../../language/t.ts';
import { changeMotif, keepMotif, newHead } from '../../motifs.ts';
import { Choice } from '../../parts/choice.tsx';
import { NumberField } from '../../parts/numberField.tsx';
import { settings } from '../../state.ts';
import { KeptByChoice } from './keptBy.tsx';
import { MotifPicture } from './motifPicture.tsx';
import { CANNOT_KEEP, PER_WORDS, perUnit, settOf, sizeWords } from './words.ts';
import { YarnChange } from './yarnChange.tsx';
import { known, type Letters, YarnRows } from './yarnRows.tsx';

interface Choices {
  readonly mirror: 'none' | Centre;
  readonly letters: Letters;
  readonly yarns: readonly MotifYarn[];
  readonly endsPerMm: number;
  readonly by: KeptBy;
}

export interface ChangePageProps {
  readonly motif: Motif;
  readonly onDone: () => void;
}

export function ChangePage({ motif, onDone }: ChangePageProps) {
  const [choices, setChoices] = useState<Choices>(() => asItIs(motif));
  const [refused, setRefused] = useState(false);
  const set = (change: Partial<Choices>) => {
    setRefused(false);
    setChoices({ ...choices, ...change });
  };
  const next = changed(motif, choices, choices.by);
  const isBeatSame =
    JSON.stringify(changed(motif, choices, 'picks').blocks) ===
    JSON.stringify(changed(motif, choices, 'length').blocks);
  const done = (kept: boolean) => {
    if (kept) onDone();
    else setRefused(true);
  };
  return (
    <div class="form motif-change">
      <MotifPicture motif={next} />
      <p class="motif-size">{sizeWords(next, settings.value.units)}</p>
      <MirrorChoice chosen={choices.mirror} onChoose={(mirror) => set({ mirror })} />
      <YarnRows
        motif={motif}
        yarns={choices.yarns}
        letters={choices.letters}
        onLetters={(letters) => set({ letters })}
      />
      <YarnChange yarns={choices.yarns} onYarns={(yarns) => set({ yarns })} />
      <SettField endsPerMm={choices.endsPerMm} onSett={(endsPerMm) => set({ endsPerMm })} />
      {isBeatSame ? null : <KeptByChoice chosen={choices.by} onChoose={(by) => set({ by })} />}
      {refused ? (
        <p class="problem" role="alert">
          {CANNOT_KEEP}
        </p>
      ) : null}
      <div class="row motif-keep">
        <button
          type="button"
          class="button strong"
          onClick={() => done(keepMotif({ ...next, ...newHead(), name: nameOf(motif, choices) }))}
        >
          {t('Keep as another')}
        </button>
        <button type="button" class="button" onClick={() => done(changeMotif(next))}>
          {t('Change this one')}
        </button>
      </div>
    </div>
  );
}

function asItIs({ yarns, endsPerMm }: Motif): Choices {
  const letters = new Map<Letter, Letter | null>(yarns.map(({ letter }) => [letter, letter]));
  return { mirror: 'none', letters, yarns, endsPerMm, by: 'picks' };
}

function changed(motif: Motif, { mirror, letters, yarns, endsPerMm }: Choices, by: KeptBy): Motif {
  const ground = groundAtSett({ ...motif, yarns }, endsPerMm);
  const there = onGround(motif, ground, known(letters), by);
  return mirror === 'none' ? there : mirroredMotif(there, mirror);
}

function nameOf({ name }: Motif, { mirror }: Choices): string {
  const short = name.slice(0, LIMITS.name - 12);
  return mirror === 'none'
    ? t('{name}, another', { name: short })
    : t('{name}, mirrored', { name: short });
}

interface MirrorProps {
  readonly chosen: Choices['mirror'];
  readonly onChoose: (mirror: Choices['mirror']) => void;
}

function MirrorChoice({ chosen, onChoose }: MirrorProps) {
  return (
    <Choice
      label={t('Mirror')}
      chosen={chosen}
      onChoose={onChoose}
      options={[
        { value: 'none', words: t('As it is') },
        { value: 'shared', words: t('There and back') },
        { value: 'doubled', words: t('There and back, middle twice') },
      ]}
    />
  );
}

interface SettProps {
  readonly endsPerMm: number;
  readonly onSett: (endsPerMm: number) => void;
}

/** Ends per unit that a weaver may want; a motif may have from 0.005 to 5 a millimetre. */
const LEAST = { inch: 1, metric: 0.5 } as const;
const MOST = { inch: 120, metric: 48 } as const;

function SettField({ endsPerMm, onSett }: SettProps) {
  const { units } = settings.value;
  const sett = settOf(endsPerMm, units);
  return (
    <NumberField
      label={t('Sett')}
      unit={t('ends {per}', { per: PER_WORDS[units] })}
      value={sett}
      step={units === 'inch' ? 0.5 : 0.25}
      least={LEAST[units]}
      most={MOST[units]}
      hint={t('The picks lie closer as the ends do; the warp keeps its ends.')}
      onValue={(value) => {
        if (value >= LEAST[units] && value <= MOST[units]) onSett(value / perUnit(units));
      }}
    />
  );
}
