/** Motifs in words. */

import { MM_PER_INCH, type Units } from '../../../core/measure/length.ts';
import { totalOf } from '../../../core/measure/runs.ts';
import { type Motif, motifLength } from '../../../core/plan/motif.ts';
import { stripesOfMotif } from '../../../core/planner/motif/changes.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';

/** `14 picks, 3.6 cm on the loom` */
export function sizeWords(motif: Motif, units: Units): string {
  const picks = totalOf(stripesOfMotif(motif));
  return t('{n, plural, one {# pick} other {# picks}}, {long} on the loom', {
    n: picks,
    long: length(motifLength(motif), units),
  });
}

export function fromWords({ from }: Motif): string {
  return from === undefined
    ? ''
    : t('from {warp}: {piece}', { warp: from.warp, piece: from.piece });
}

/** What a sett or a beat is counted over: threads per inch or per centimetre. */
export const perUnit = (units: Units) => (units === 'inch' ? MM_PER_INCH : 10);

export const PER_WORDS: Readonly<Record<Units, string>> = {
  inch: t('per in'),
  metric: t('per cm'),
};

export const settOf = (endsPerMm: number, units: Units) => tenth(endsPerMm * perUnit(units));

const tenth = (value: number) => Math.round(value * 10) / 10;

export const REMOVED = (name: string) => t('“{name}” is off the shelf.', { name });
export const CHANGED = (name: string) => t('“{name}” is changed.', { name });
export const COMES_NEXT = (name: string) => t('“{name}” comes next. Undo takes it back.', { name });
export const CANNOT_KEEP = t('This would be no motif: its picks lie too close or too far apart.');

export const NO_MOTIF = t(
  'No motif is kept yet. Choose a stretch of the woven cloth, at the loom under More or in the journal, and give it a name.',
);
