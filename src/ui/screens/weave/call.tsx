/** The call: colour, pick, shed and side, readable from a metre and a half. */
import type { PickFacts } from '../../../core/bench/pickAt.ts';
import type { LoomKind, Plan } from '../../../core/plan/plan.ts';
import { SIDE_WORDS, shedWord } from '../../format.ts';
import { t } from '../../language/t.ts';
import { still } from '../../parts/still.ts';
import { Swatch } from '../../parts/swatch.tsx';
import type { Session } from '../../state.ts';
import { handWords, isByEye, turnWords } from './pickWords.ts';

export function Call({ plan, facts }: { readonly plan: Plan; readonly facts: PickFacts }) {
  const yarn = plan.yarns[facts.yarn];
  const { kind } = plan.loom;
  if (yarn === undefined) return null;
  const shed = shedWord(kind, facts.shed);
  const words = handWords(plan, facts);
  return (
    <section class="call" data-change={facts.coming !== null} aria-label={t('The next pick')}>
      <div class="call-main" aria-hidden="true">
        <YarnSign yarn={yarn} size="big" />
        <p class="call-yarn">
          <span class="call-name" data-long={yarn.name.length > 8}>
            {yarn.name}
          </span>
          <span class="call-turn">{turnWords(plan, facts)}</span>
        </p>
        <p class="call-count">
          <CountHere facts={facts} />
        </p>
        <p class="call-shed" data-shed={facts.shed}>
          <ShedSign kind={kind} />
          <span>{shed}</span>
        </p>
        <p class="call-side" data-from={facts.from}>
          <SideSign />
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

// Every tap shows the call: what is the same from pick to pick is not compared again.

const YarnSign = still(Swatch);

/** The two layers of ends, the upper one strong: turned over (call.css) where the other shed is open. */
const ShedSign = still(({ kind }: { readonly kind: LoomKind }) => (
  <svg class="sign" viewBox="0 0 48 40" aria-hidden="true">
    <path d="M2 20 L30 6 L46 6" class="sign-strong" />
    <path d="M2 20 L30 34 L46 34" class="sign-faint" />
    {kind === 'rigid-heddle' ? (
      <rect x="27" y="2" width="6" height="18" rx="2" class="sign-fill" />
    ) : (
      <circle cx="30" cy="6" r="5" class="sign-fill" />
    )}
  </svg>
));

/** The way the shuttle goes, away from the left: turned over (call.css) where it lies on the right. */
const SideSign = still(() => (
  <svg class="sign" viewBox="0 0 48 40" aria-hidden="true">
    <path d="M4 20 H42 M30 8 L43 20 L30 32" class="sign-strong" />
  </svg>
));
