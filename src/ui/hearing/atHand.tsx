/**
 * What the bench does besides showing: it sounds, speaks, shakes, tells a screen reader, and keeps the
 * screen awake. None of it is needed for the first pick, so it comes after the bench itself stands.
 */
import { useEffect } from 'preact/hooks';
import { keepAwake, letSleep } from '../device/wakeLock.ts';
import { t } from '../language/t.ts';
import { hatchPainter } from '../parts/hatching.ts';
import { senses } from '../senses.ts';
import type { Session } from '../state.ts';
import '../style/hearing.css';
import { hatchYarns } from './hatchYarns.ts';
import { useHearing } from './useHearing.ts';
import { WakeNote } from './wakeNote.tsx';

export function AtHand({ now }: { readonly now: Session }) {
  useEffect(() => {
    void keepAwake();
    return () => void letSleep();
  }, []);
  const { yarns } = now.plan;
  useEffect(() => {
    hatchPainter.value = hatchYarns(yarns.map((yarn) => yarn.colour));
  }, [yarns]);
  return senses.value === null ? null : <Hearing now={now} />;
}

function Hearing({ now }: { readonly now: Session }) {
  const { live, isComing, sayAgain } = useHearing(now);
  return (
    <>
      <p class="unseen" aria-live="polite" data-coming={isComing}>
        {live}
      </p>
      {senses.value?.voice === 'on' ? (
        <button type="button" class="say-again" aria-label={t('Say it again')} onClick={sayAgain} />
      ) : null}
      <WakeNote />
    </>
  );
}
