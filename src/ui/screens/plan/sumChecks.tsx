/** Sett advice, what the edges will do, and whether the colours will read. */
import { MM_PER_INCH } from '../../../core/measure/length.ts';
import type { SettVerdict } from '../../../core/planner/sheet.ts';
import { list } from '../../format.ts';
import { edgeNotes } from './edgeWords.ts';
import type { SumProps } from './sumNeeds.tsx';
import { ReadsPart } from './sumReads.tsx';

export function CheckPart({ plan, sheet }: SumProps) {
  return (
    <>
      <SettPart plan={plan} sheet={sheet} />
      {sheet.warnings.length === 0 ? null : (
        <section aria-label="Edges">
          <h3>Edges</h3>
          <ul class="plain">
            {edgeNotes(plan, sheet.warnings).map(({ pieces, words }) => (
              <li key={words}>
                <strong>{list(pieces)}:</strong> {words}
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
  open: 'more open than usual',
  within: 'within the usual range',
  close: 'closer than usual',
  'too-close': 'closer than plain weave allows',
};
const USES = { firm: 'firm cloth', towel: 'towels', drape: 'drape' } as const;

function SettPart({ plan, sheet }: SumProps) {
  const { advice, setts } = sheet;
  const inch = plan.units === 'inch';
  const per = (threads: number) =>
    (Math.round(threads * (inch ? MM_PER_INCH : 10) * 10) / 10).toString();
  const unit = inch ? 'per inch' : 'per cm';
  const constants = [...new Set(advice.constants.map(({ k }) => k))].join(' and ');
  return (
    <section aria-label="Sett">
      <h3>Sett</h3>
      <p>
        <strong>
          {per(setts.reed)} ends {unit}: {VERDICTS[advice.verdict]}.
        </strong>{' '}
        Washed {per(setts.washed)} ends and {per(setts.picksWashed)} picks {unit}.
      </p>
      <dl class="figures">
        {advice.uses.map(({ use, from, to }) => (
          <div key={use}>
            <dt>for {USES[use]}</dt>
            <dd>
              {per(from)} to {per(to)}
            </dd>
          </div>
        ))}
      </dl>
      <p class="hint">
        Ashenhurst’s rule with k = {constants}: {per(advice.touching)} {unit} lie side by side, half
        of them is the closest plain sett, and a working sett is a part of that.
      </p>
    </section>
  );
}
