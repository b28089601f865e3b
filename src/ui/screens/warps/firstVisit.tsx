/** What a newcomer is told before the first plan: the four steps of the work, and where it is kept. */
import { useState } from 'preact/hooks';
import { markSeen, seen, showAgain } from '../../device/seen.ts';
import { t } from '../../language/t.ts';
import { InstallOffer } from '../../parts/installOffer.tsx';
import '../../style/walk.css';
import { AfterPicture, PlanPicture, WarpPicture, WeavePicture } from './walkPictures.tsx';

const STEPS = [
  {
    Picture: PlanPicture,
    title: t('Plan'),
    words: t(
      'Say what you want to have in your hands: so many towels, so wide, so long when washed. Fellmark reckons the warp to wind and the yarn it takes.',
    ),
  },
  {
    Picture: WarpPicture,
    // The verb, not the threads.
    title: t('{step, select, warp {Warp} other {Warp}}', { step: 'warp' }),
    words: t(
      'The warping list goes along with you: colour by colour, what is wound and threaded is ticked off.',
    ),
  },
  {
    Picture: WeavePicture,
    title: t('Weave'),
    words: t(
      'Tap the large field, or a pedal, after each pick. Fellmark tells the yarn, the shed, the side, and what falls due. Undo takes back any tap.',
    ),
  },
  {
    Picture: AfterPicture,
    title: t('Measure'),
    words: t(
      'Measure now and then: what is left of the warp, and how the piece can end, follow from your own beat. Washed cloth gives the next plan true numbers.',
    ),
  },
] as const;

export function FirstVisit() {
  const known = seen.value;
  return (
    <>
      {known.includes('walk') ? null : <FirstWalk />}
      {known.includes('install') ? null : (
        <InstallOffer>
          <button type="button" class="button quiet" onClick={() => markSeen('install')}>
            {t('Not now')}
          </button>
        </InstallOffer>
      )}
    </>
  );
}

function FirstWalk() {
  const [at, setAt] = useState(0);
  const step = STEPS[at] ?? STEPS[0];
  const isLast = at === STEPS.length - 1;
  const { Picture } = step;
  return (
    <section class="walk" aria-label={t('How it works')}>
      <Picture />
      <div class="walk-words" aria-live="polite">
        <p class="walk-count">{t('{at} of {of}', { at: at + 1, of: STEPS.length })}</p>
        <h2>{step.title}</h2>
        <p>{step.words}</p>
      </div>
      <div class="walk-buttons">
        {isLast ? null : (
          <button type="button" class="button quiet" onClick={() => markSeen('walk')}>
            {t('Skip')}
          </button>
        )}
        {at === 0 ? null : (
          <button type="button" class="button" onClick={() => setAt(at - 1)}>
            {t('Back')}
          </button>
        )}
        <button
          type="button"
          class="button strong"
          onClick={() => (isLast ? markSeen('walk') : setAt(at + 1))}
        >
          {isLast ? t('Begin') : t('Next')}
        </button>
      </div>
    </section>
  );
}

/** Brings the walk back; it stands at the top of the page. */
export function WalkAgain() {
  if (!seen.value.includes('walk')) return null;
  return (
    <p>
      <button
        type="button"
        class="button quiet"
        onClick={() => {
          showAgain('walk');
          scrollTo({ top: 0 });
        }}
      >
        {t('How it works')}
      </button>
    </p>
  );
}
