/** The step to do, readable from a metre and a half, with the running check below it. */
import type { Letter, Plan } from '../../../core/plan/plan.ts';
import { inRounds, type Rounds } from '../../../core/plan/warping/batches.ts';
import type { WarpingStep } from '../../../core/plan/warping/list.ts';
import { t } from '../../language/t.ts';
import { Swatch } from '../../parts/swatch.tsx';
import { LabelWords } from '../../parts/words.tsx';
import { nameIn, type StepWords, type Work } from './stepWords.ts';
import { PHASES, stepWords } from './words.ts';

export interface StepCallProps {
  readonly work: Work;
  readonly step: WarpingStep;
  readonly done: number;
}

export function StepCall({ work, step, done }: StepCallProps) {
  const words = stepWords(work, step);
  const { amount } = words;
  return (
    <section class="step-call" aria-label={t('The step to do')}>
      <p class="step-phase">
        <LabelWords
          label={PHASES[step.phase]}
          word={step.phase === 'floating' ? 'floating' : undefined}
        />
        <span class="step-of">
          {t('step {n} of {all}', { n: done + 1, all: work.list.steps.length })}
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
        <p class="step-place" data-alone={amount === null}>
          {words.place}
        </p>
      </div>
      <p class="step-hands" aria-hidden="true">
        {words.hands.join(' ')}
      </p>
      <Tally work={work} step={step} words={words} />
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
          {times > 1 ? (
            <span class="step-times">
              {t('{n, plural, one {# time} other {# times}}', { n: times })}
            </span>
          ) : null}
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
function Tally({ work, step, words }: Omit<StepCallProps, 'done'> & { readonly words: StepWords }) {
  const { plan, list } = work;
  if (step.phase === 'setup' || step.phase === 'wind' || step.phase === 'floating') return null;
  const changed = new Set(words.runs.map((run) => run.of));
  const unit = countsLoops(work.list, step) ? 'loops' : 'ends';
  return (
    <p class="running" data-yarns={manyOf(step.soFar.length)}>
      <span class="running-words">{unit === 'loops' ? t('Loops by then') : t('Ends by then')}</span>
      {step.soFar.map((soFar) => (
        <span class="running-yarn" data-changed={changed.has(soFar.yarn)} key={soFar.yarn}>
          <SwatchOf plan={plan} letter={soFar.yarn} />
          <span class="unseen">{t('{name}:', { name: nameIn(plan, soFar.yarn) })} </span>
          {t('{some} of {all}', {
            some: soFar[unit],
            all: list.yarns.find(({ yarn }) => yarn === soFar.yarn)?.[unit] ?? 0,
          })}
        </span>
      ))}
    </p>
  );
}

/** Of many yarns only those of the step are counted where there is no room for all. */
function manyOf(yarns: number): 'few' | 'several' | 'many' {
  if (yarns > 8) return 'many';
  return yarns > 4 ? 'several' : 'few';
}

/** Loops can be counted where every end of the warp is half of one of its own colour. */
function countsLoops(list: Work['list'], step: WarpingStep): boolean {
  return step.phase === 'loops' && list.yarns.every(({ ends, loops }) => ends === 2 * loops);
}

function spoken({ title, amount, place, hands }: StepWords): string {
  const much = amount === null ? '' : `${amount.count} ${amount.unit}, `;
  const what = `${much}${place}`;
  const call = what === '' ? `${title}.` : t('{title}: {what}.', { title, what });
  return [call, ...hands].join(' ');
}
