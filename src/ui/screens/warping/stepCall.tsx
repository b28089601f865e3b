/** The step to do, readable from a metre and a half, with the running check below it. */
import type { Letter, Plan } from '../../../core/plan/plan.ts';
import { inRounds, type Rounds } from '../../../core/plan/warping/batches.ts';
import type { WarpingStep, YarnSoFar } from '../../../core/plan/warping/list.ts';
import { count } from '../../format.ts';
import { Swatch } from '../../parts/swatch.tsx';
import { nameIn, PHASES, type StepWords, stepWords, type Work } from './words.ts';

export interface StepCallProps {
  readonly work: Work;
  readonly step: WarpingStep;
  readonly done: number;
}

export function StepCall({ work, step, done }: StepCallProps) {
  const words = stepWords(work, step);
  const { amount } = words;
  return (
    <section class="step-call" aria-label="The step to do">
      <p class="step-phase">
        {PHASES[step.phase]}
        <span class="step-of">
          step {done + 1} of {work.list.steps.length}
        </span>
      </p>
      <div class="step-main" aria-hidden="true">
        <Yarns plan={work.plan} words={words} />
        {amount === null ? null : (
          <p class="step-amount">
            <span class="step-count">{amount.count}</span>
            <span class="step-unit">{amount.unit}</span>
          </p>
        )}
        <p class="step-place">{words.place}</p>
      </div>
      <p class="step-hands" aria-hidden="true">
        {words.hands.join(' ')}
      </p>
      <Tally work={work} step={step} />
      <p class="unseen" aria-live="polite">
        {spoken(words)}
      </p>
    </section>
  );
}

/** One yarn stands large with its name; several as the runs they make. */
function Yarns({ plan, words }: { readonly plan: Plan; readonly words: StepWords }) {
  const letters = new Set(words.runs.map((run) => run.of));
  const [letter] = letters;
  const yarn = plan.yarns.find((it) => it.letter === letter);
  if (letters.size > 1) return <Runs plan={plan} rounds={inRounds(words.runs)} />;
  return (
    <p class="step-yarn">
      {yarn === undefined ? null : <Swatch yarn={yarn} size="big" />}
      <span class="step-name">{words.title}</span>
    </p>
  );
}

function Runs({
  plan,
  rounds,
}: {
  readonly plan: Plan;
  readonly rounds: readonly Rounds<Letter>[];
}) {
  return (
    <p class="step-runs" data-many={rounds.length > 3}>
      {rounds.map(({ round, times }, i) => (
        <span class="step-round" key={i}>
          {round.map((run, k) => (
            <span class="step-run" key={k}>
              <SwatchOf plan={plan} letter={run.of} />
              {run.count}
            </span>
          ))}
          {times > 1 ? <span class="step-times">{times} times</span> : null}
        </span>
      ))}
    </p>
  );
}

export function SwatchOf({ plan, letter }: { readonly plan: Plan; readonly letter: Letter }) {
  const yarn = plan.yarns.find((it) => it.letter === letter);
  return yarn === undefined ? null : <Swatch yarn={yarn} />;
}

/** What must be there once the step is done: told before it is ticked, to be counted then. */
function Tally({ work, step }: { readonly work: Work; readonly step: WarpingStep }) {
  const { plan, list } = work;
  if (step.phase === 'setup' || step.phase === 'wind' || step.phase === 'floating') return null;
  return (
    <p class="tally">
      <span class="tally-words">Then there are</span>
      {step.soFar.map((soFar) => {
        const of = list.yarns.find((yarn) => yarn.yarn === soFar.yarn);
        const inLoops = step.phase === 'loops' && of !== undefined && of.ends === 2 * of.loops;
        return (
          <span class="tally-yarn" key={soFar.yarn}>
            <SwatchOf plan={plan} letter={soFar.yarn} />
            <span class="unseen">{nameIn(plan, soFar.yarn)}: </span>
            {tallyWords(soFar, inLoops, of?.ends ?? 0, of?.loops ?? 0)}
          </span>
        );
      })}
    </p>
  );
}

function tallyWords(soFar: YarnSoFar, inLoops: boolean, ends: number, loops: number): string {
  return inLoops
    ? `${soFar.loops} of ${count(loops, 'loop')}`
    : `${soFar.ends} of ${count(ends, 'end')}`;
}

function spoken({ title, amount, place, hands }: StepWords): string {
  const much = amount === null ? '' : `${amount.count} ${amount.unit}, `;
  return [`${title}: ${much}${place}.`, ...hands].join(' ');
}
