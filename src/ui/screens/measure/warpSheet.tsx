/** The warp's own figures: how long it was tied on, and what of it was not woven. */
import type { WarpReadings } from '../../../core/learn/readings.ts';
import type { Mm } from '../../../core/measure/length.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { readWarp } from '../../clothReading.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { PadForm, type PadRow } from '../../parts/padForm.tsx';
import { Sheet } from '../../parts/sheet.tsx';

export interface WarpSheetProps {
  readonly plan: Plan;
  readonly onClose: () => void;
}

export function WarpSheet({ plan, onClose }: WarpSheetProps) {
  const save = (lengths: ReadonlyMap<string, Mm>) => {
    keepWarp(plan, lengths);
    onClose();
  };
  return (
    <Sheet title={t('The warp’s own figures')} onClose={onClose} wide>
      <div class="form">
        <p>
          {t(
            'How long was the warp as tied on, from knot to knot, and what of it was not woven? They tell what weaving takes. What you do not know you can leave out.',
          )}
        </p>
        <PadForm
          rows={rowsOf(plan)}
          units={plan.units}
          save={t('Keep these figures')}
          partly
          onSave={save}
        />
      </div>
    </Sheet>
  );
}

const GAP = 'gap';

function rowsOf({ pieces }: Plan): readonly PadRow[] {
  const gaps = pieces.slice(1).map((it, i) => ({
    key: `${GAP}${i}`,
    label: t('Gap before {name}', { name: it.name }),
  }));
  return [
    { key: 'tiedOn', label: t('Tied on') },
    { key: 'frontWaste', label: t('Waste in front') },
    { key: 'backWaste', label: t('Waste behind') },
    ...gaps,
  ];
}

function keepWarp({ pieces }: Plan, lengths: ReadonlyMap<string, Mm>): void {
  const one = (key: 'tiedOn' | 'frontWaste' | 'backWaste') => {
    const mm = lengths.get(key);
    return mm === undefined ? {} : { [key]: mm };
  };
  const gaps = pieces.slice(1).map((_, i) => lengths.get(`${GAP}${i}`));
  const all = gaps.filter((it) => it !== undefined);
  // Only all gaps together say what of the warp they took.
  const known = all.length === gaps.length && all.length > 0 ? { gaps: all } : {};
  readWarp({ ...one('tiedOn'), ...one('frontWaste'), ...one('backWaste'), ...known });
}

export interface WarpPartProps {
  readonly plan: Plan;
  readonly warp: WarpReadings;
  readonly onRead: () => void;
}

export function WarpPart({ plan, warp, onRead }: WarpPartProps) {
  const told: readonly (readonly [string, string])[] = [
    [t('Tied on'), shown(warp.tiedOn?.value, plan)],
    [t('Waste in front'), shown(warp.frontWaste?.value, plan)],
    [t('Waste behind'), shown(warp.backWaste?.value, plan)],
    ...(plan.pieces.length < 2
      ? []
      : ([[t('Gaps'), gapWords(warp.gaps?.value ?? null, plan)]] as const)),
  ];
  return (
    <section class="warp-part" aria-label={t('The warp’s own figures')}>
      <h2>{t('The warp’s own figures')}</h2>
      <dl class="facts">
        {told.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <button type="button" class="button" onClick={onRead}>
        {t('Tell its figures')}
      </button>
    </section>
  );
}

function shown(mm: Mm | undefined, { units }: Plan): string {
  return mm === undefined ? t('not read') : length(mm, units);
}

function gapWords(gaps: readonly Mm[] | null, { units }: Plan): string {
  return gaps === null ? t('not read') : gaps.map((mm) => length(mm, units)).join(', ');
}
