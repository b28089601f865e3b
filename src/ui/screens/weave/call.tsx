/** The call: colour, pick, shed and side, readable from a metre and a half. */
import type { PickFacts } from '../../../core/bench/pickAt.ts';
import type { LoomKind, Plan, Side } from '../../../core/plan/plan.ts';
import { SIDE_WORDS, shedWord } from '../../format.ts';
import { t } from '../../language/t.ts';
import { Swatch } from '../../parts/swatch.tsx';
import type { Session } from '../../state.ts';
import { handWords, isByEye, turnWords } from './pickWords.ts';

export function Call({ plan, facts }: { readonly plan: Plan; readonly facts: PickFacts }) {
  const yarn = plan.yarns[facts.yarn];
  if (yarn === undefined) return null;
  const shed = shedWord(plan.loom.kind, facts.shed);
  const words = handWords(plan, facts);
  return (
    <section class="call" data-change={facts.coming !== null} aria-label={t('The next pick')}>
      <div class="call-main" aria-hidden="true">
        <Swatch yarn={yarn} size="big" />
        <p class="call-yarn">
          <span class="call-name" data-long={yarn.name.length > 8}>
            {yarn.name}
          </span>
          <span class="call-turn">{turnWords(plan, facts)}</span>
        </p>
        <p class="call-count">
          <CountHere facts={facts} />
        </p>
        <p class="call-shed">
          <ShedSign kind={plan.loom.kind} shed={facts.shed} />
          <span>{shed}</span>
        </p>
        <p class="call-side">
          <SideSign from={facts.from} />
          <span>
            <span class="call-from">{t('from')} </span>
            {SIDE_WORDS[facts.from]}
          </span>
        </p>
      </div>
      <p class="call-hand" aria-hidden="true">
        {words.join(' ') ||
          (isByEye(facts)
            ? t('{n, plural, one {# pick} other {# picks}} by eye so far.', {
                n: facts.block.done,
              })
            : ' ')}
      </p>
    </section>
  );
}

/** The pick about to be thrown, and of how many; by eye those thrown, as nobody knows how many it will be. */
function CountHere({ facts }: { readonly facts: PickFacts }) {
  const { done, picks } = facts.stripe;
  const open = isByEye(facts);
  return (
    <>
      <span class="call-pick">{open ? done : done + 1}</span>
      <span class="call-of">
        {open
          ? t('{n, plural, one {thrown} other {thrown}}', { n: done })
          : t('of {n}', { n: picks })}
      </span>
    </>
  );
}

export function WovenCall({ now }: { readonly now: Session }) {
  const { course, cutOff } = now.progress;
  return (
    <section class="call" aria-label={t('The next pick')}>
      <div class="call-main">
        <p class="call-yarn">
          <span class="call-name">{cutOff ? t('Cut off the loom') : t('Woven to the end')}</span>
          <span class="call-turn">
            {t(
              '{picks, plural, one {# pick} other {# picks}} in {pieces, plural, one {# piece} other {# pieces}}',
              { picks: course.picks, pieces: course.pieces.length },
            )}
          </span>
        </p>
      </div>
      <p class="call-hand"> </p>
    </section>
  );
}

/** The two layers of ends: which ones are up. */
function ShedSign({ kind, shed }: { readonly kind: LoomKind; readonly shed: number }) {
  const heddleY = kind === 'rigid-heddle' ? (shed === 0 ? 2 : 20) : 11;
  return (
    <svg class="sign" viewBox="0 0 48 40" aria-hidden="true">
      <path d="M2 20 L30 6 L46 6" class={shed === 0 ? 'sign-strong' : 'sign-faint'} />
      <path d="M2 20 L30 34 L46 34" class={shed === 0 ? 'sign-faint' : 'sign-strong'} />
      {kind === 'rigid-heddle' ? (
        <rect x="27" y={heddleY} width="6" height="18" rx="2" class="sign-fill" />
      ) : (
        <circle cx="30" cy={shed === 0 ? 6 : 34} r="5" class="sign-fill" />
      )}
    </svg>
  );
}

/** The way the shuttle goes: away from the side it lies on. */
function SideSign({ from }: { readonly from: Side }) {
  return (
    <svg class="sign" viewBox="0 0 48 40" aria-hidden="true" data-from={from}>
      {from === 'left' ? (
        <path d="M4 20 H42 M30 8 L43 20 L30 32" class="sign-strong" />
      ) : (
        <path d="M44 20 H6 M18 8 L5 20 L18 32" class="sign-strong" />
      )}
    </svg>
  );
}
