/** Everything left, with what it rests on: warp, yarns, what to wind, further pieces. */
import type { YarnLeft } from '../../../../core/bench/left/left.ts';
import { windFor } from '../../../../core/bench/left/windFor.ts';
import { accountsOf } from '../../../../core/bench/standing.ts';
import '../../../style/left.css';
import { length } from '../../../format.ts';
import { t } from '../../../language/t.ts';
import { Swatch } from '../../../parts/swatch.tsx';
import { further, standing, tally } from '../../../standing.ts';
import type { Session } from '../../../state.ts';
import {
  furtherWords,
  gramsLeft,
  lengthLeft,
  OPEN_FURTHER,
  openWarpWords,
  openYarnWords,
  warpWords,
  windWords,
  yarnWords,
} from './leftWords.ts';

interface LeftPageProps {
  readonly now: Session;
  readonly onWeigh: (yarn: number) => void;
}

export function LeftPage({ now, onWeigh }: LeftPageProps) {
  const it = standing.value;
  const more = further.value;
  if (it === null || more === null) return null;
  const { plan } = now;
  const { parts } = it.warp;
  const { pick, course } = now.progress;
  const byEye = course.open.length > 0;
  const far = (mm: number) => length(mm, plan.units);
  return (
    <div class="left-page">
      <section aria-label={t('Warp')}>
        <h3>{t('Warp')}</h3>
        <p class="left-much">
          {t('{length} can still be woven', { length: lengthLeft(it.warp.left, plan.units) })}
        </p>
        <p>
          {byEye
            ? openWarpWords(it.warp, course, plan.units)
            : warpWords(it.warp, pick, plan.units)}
        </p>
        <p class="hint">
          {t(
            'Of {tiedOn} tied on, {woven} went into the cloth, {waste} are waste{has, select, gaps {, {gaps} gaps} other {}}.',
            {
              tiedOn: far(parts.tiedOn),
              woven: far(parts.woven),
              waste: far(parts.waste),
              has: parts.gaps > 0 ? 'gaps' : '',
              gaps: far(parts.gaps),
            },
          )}
        </p>
      </section>
      <section aria-label={t('Yarns')}>
        <h3>{t('Yarns')}</h3>
        <ul class="left-yarns">
          {it.yarns.map((yarn) => (
            <YarnRow key={yarn.yarn} now={now} yarn={yarn} onWeigh={onWeigh} />
          ))}
        </ul>
      </section>
      <section aria-label={t('Further pieces')}>
        <h3>{t('Further pieces')}</h3>
        <p>{byEye ? OPEN_FURTHER : furtherWords(plan, more)}</p>
      </section>
    </div>
  );
}

interface YarnRowProps {
  readonly now: Session;
  readonly yarn: YarnLeft;
  readonly onWeigh: (yarn: number) => void;
}

function YarnRow({ now, yarn, onWeigh }: YarnRowProps) {
  const { plan, progress } = now;
  const it = plan.yarns[yarn.yarn];
  if (it === undefined) return null;
  const counted = tally.value;
  if (counted === null) return null;
  const byEye = progress.course.open.length > 0;
  const wind = byEye
    ? null
    : windFor(counted, progress.pick, yarn.yarn, 'block', accountsOf(progress));
  return (
    <li>
      <Swatch yarn={it} />
      <div>
        <p class="left-much">
          {yarn.left === null
            ? t('{yarn}: not weighed', { yarn: it.name })
            : t('{yarn}: {weight} left', {
                yarn: it.name,
                weight: gramsLeft(yarn.left.grams, plan.units),
              })}
        </p>
        <p>
          {byEye ? openYarnWords(yarn, plan.units) : yarnWords(yarn, progress.pick, plan.units)}
        </p>
        {wind === null ? null : (
          <p class="hint">
            {t('Wind for its next block: {much}.', { much: windWords(wind, plan.units) })}
          </p>
        )}
      </div>
      <button type="button" class="button" onClick={() => onWeigh(yarn.yarn)}>
        {t('Weigh')}
      </button>
    </li>
  );
}
