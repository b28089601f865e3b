/** All steps, the one to do kept in sight. It only tells: ticking is done in one place. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { WarpingStep } from '../../../core/plan/warping/list.ts';
import { t } from '../../language/t.ts';
import { SwatchOf } from './stepCall.tsx';
import type { Work } from './stepWords.ts';
import { PHASES, stepWords } from './words.ts';

/** More swatches than this say less than the names would. */
const MOST_SWATCHES = 4;

export function StepList({ work, done }: { readonly work: Work; readonly done: number }) {
  const { steps } = work.list;
  const box = useRef<HTMLOListElement>(null);
  useLayoutEffect(() => {
    const list = box.current;
    const row = list?.querySelector<HTMLElement>('[aria-current]') ?? null;
    if (list === null) return;
    // One row done stays in sight above the one to do.
    list.scrollTop = row === null ? list.scrollHeight : row.offsetTop - row.offsetHeight * 1.3;
  }, [done, steps]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <ol class="to-warp" ref={box} tabIndex={0} aria-label={t('All steps')}>
      {steps.map((step, i) => (
        <Row
          key={step.id}
          work={work}
          step={step}
          state={i < done ? 'done' : i === done ? 'now' : 'to-do'}
          heads={step.phase !== steps[i - 1]?.phase}
        />
      ))}
    </ol>
  );
}

interface RowProps {
  readonly work: Work;
  readonly step: WarpingStep;
  readonly state: 'done' | 'now' | 'to-do';
  /** The first of its phase. */
  readonly heads: boolean;
}

const SIGNS = { done: '✓', now: '▸', 'to-do': '' } as const;

function Row({ work, step, state, heads }: RowProps) {
  const words = stepWords(work, step);
  const letters = [...new Set(words.runs.map((run) => run.of))].slice(0, MOST_SWATCHES);
  const amount = words.amount === null ? '' : `${words.amount.count} ${words.amount.unit}`;
  const alone = step.phase === 'setup' || step.phase === 'wind' || step.phase === 'floating';
  return (
    <li class="warp-step" data-state={state} aria-current={state === 'now' ? 'step' : undefined}>
      {heads && !alone ? <span class="step-head">{PHASES[step.phase]}</span> : null}
      <span class="step-sign" aria-hidden="true">
        {SIGNS[state]}
      </span>
      <span class="unseen">{state === 'done' ? `${t('Done:')} ` : ''}</span>
      <span class="step-yarns">
        {letters.map((letter) => (
          <SwatchOf key={letter} plan={work.plan} letter={letter} />
        ))}
      </span>
      <span class="step-what">
        {alone ? PHASES[step.phase] : kindWord(step, amount)}
        <span class="unseen"> {words.title}</span>
      </span>
      <span class="step-where">{alone ? '' : words.place}</span>
    </li>
  );
}

/** Odd steps say so in the list. */
function kindWord(step: WarpingStep, amount: string): string {
  if (step.kind === 'tie') return t('tie at the peg');
  if (step.kind === 'choose' && step.moves.length > 0 && step.stays.length > 0)
    return t('mind which');
  return amount;
}
