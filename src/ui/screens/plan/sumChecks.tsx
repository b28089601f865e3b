/** Sett advice, what the edges will do, and whether the colours will read. */

import { MM_PER_INCH } from '../../../core/measure/length.ts';
import type { SettVerdict } from '../../../core/planner/sheet.ts';
import { inOurNumbers, list } from '../../format.ts';
import { t } from '../../language/t.ts';
import { Word } from '../../parts/words.tsx';
import { edgeNotes } from './edgeWords.ts';
import type { SumProps } from './sumNeeds.tsx';
import { ReadsPart } from './sumReads.tsx';

export function CheckPart({ plan, sheet }: SumProps) {
  return (
    <>
      <SettPart plan={plan} sheet={sheet} />
      {sheet.warnings.length === 0 ? null : (
        <section aria-label={t('Edges')}>
          <h3>{t('Edges')}</h3>
          <ul class="plain">
            {edgeNotes(plan, sheet.warnings).map(({ key, pieces, words }) => (
              <li key={key}>
                <strong>{t('{name}:', { name: list(pieces) })}</strong> {words}
              </li>
            ))}
          </ul>
        </section>
      )}
      <ReadsPart plan={plan} />
    </>
  );
}

const VERDICTS: Record<SettVerdict, string> = {
  open: t('more open than usual'),
  within: t('within the usual range'),
  close: t('closer than usual'),
  'too-close': t('closer than plain weave allows'),
};

function SettPart({ plan, sheet }: SumProps) {
  const { advice, setts } = sheet;
  const inch = plan.units === 'inch';
  const per = (threads: number) =>
    inOurNumbers(String(Math.round(threads * (inch ? MM_PER_INCH : 10) * 10) / 10));
  const unit = inch ? t('per inch') : t('per cm');
  const constants = [...new Set(advice.constants.map(({ k }) => k))];
  return (
    <section aria-label={t('Sett')}>
      <h3>
        <Word of="sett">{t('Sett')}</Word>
      </h3>
      <p>
        <strong>
          {t('{ends} ends {unit}: {verdict}.', {
            ends: per(setts.reed),
            unit,
            verdict: VERDICTS[advice.verdict],
          })}
        </strong>{' '}
        {t('Washed {ends} ends and {picks} picks {unit}.', {
          ends: per(setts.washed),
          picks: per(setts.picksWashed),
          unit,
        })}
      </p>
      <dl class="figures">
        {advice.uses.map(({ use, from, to }) => (
          <div key={use}>
            <dt>
              {t('for {use, select, firm {firm cloth} towel {towels} other {drape}}', { use })}
            </dt>
            <dd>{t('{from} to {to}', { from: per(from), to: per(to) })}</dd>
          </div>
        ))}
      </dl>
      <p class="hint">
        {t(
          'Ashenhurst’s rule with k = {constants}: {threads} {unit} lie side by side, half of them is the closest plain sett, and a working sett is a part of that.',
          {
            constants: list(constants.map((k) => inOurNumbers(String(k)))),
            threads: per(advice.touching),
            unit,
          },
        )}
      </p>
    </section>
  );
}
