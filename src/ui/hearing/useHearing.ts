/** Plays what the core decides is to be heard, each time something happened at the bench. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { type Calls, callsBetween, wholeCall } from '../../core/bench/hearing/calls.ts';
import type { Senses } from '../../core/bench/hearing/senses.ts';
import type { Progress } from '../../core/bench/progress.ts';
import { playSounds, wakeSound } from '../device/sound.ts';
import { vibrate } from '../device/vibration.ts';
import { hush, speak, unlockVoice } from '../device/voice.ts';
import { senses } from '../senses.ts';
import { factsOf, type Session } from '../state.ts';
import { callWords, placeWords } from './callWords.ts';

export interface Hearing {
  /** What the live region says: the call, or which pick it is where the call says nothing. */
  readonly live: string;
  /** A change was told ahead with this very pick. */
  readonly isComing: boolean;
  readonly sayAgain: () => void;
}

const QUIET: Pick<Hearing, 'live' | 'isComing'> = { live: '', isComing: false };

export function useHearing(now: Session): Hearing {
  const before = useRef<{ readonly warp: string; readonly progress: Progress } | null>(null);
  const [shown, setShown] = useState(QUIET);
  const { progress, warp } = now;
  // The pick is painted first: a sound is late by a frame, which nobody hears.
  useEffect(() => {
    const was = before.current?.warp === warp.id ? before.current.progress : null;
    before.current = { warp: warp.id, progress };
    const set = senses.peek();
    if (set === null || was === progress) return;
    const calls = callsBetween(was, progress, set.ahead);
    const live = play(set, progress, calls);
    // The kind is not for a reader.
    setShown({ live, isComing: calls.spoken.some((it) => it.kind.endsWith('Ahead')) });
  }, [progress, warp.id]);
  const sayAgain = () => {
    const set = senses.peek();
    if (set !== null) say(set, callWords(progress, wholeCall(progress)).join(' '), '');
  };
  useTaps(sayAgain);
  useEffect(() => hush, []);
  return { ...shown, sayAgain };
}

function play(set: Senses, progress: Progress, { signals, spoken }: Calls): string {
  const heard = set.sound === 'picks' ? signals : signals.filter((it) => it !== 'pick');
  if (set.sound !== 'off') playSounds(heard, set.volume);
  if (set.vibration === 'on') vibrate(signals);
  const said = callWords(progress, spoken).join(' ');
  const dues = spoken.filter((it) => it.kind === 'due');
  if (said !== '') say(set, said, callWords(progress, dues).join(' '));
  const facts = factsOf(progress);
  return said === '' && facts !== null ? placeWords(facts) : said;
}

function say({ voice, voiceName, rate, volume }: Senses, text: string, mustBeHeard: string): void {
  if (voice === 'off') return;
  // Where the voice stays silent a sound says that there was something to say.
  const onSilence = () => playSounds(['now'], volume);
  speak({ text, mustBeHeard, voiceName, rate, onSilence });
}

/** Every tap and key wakes what browsers let sleep; a taught key says it again. */
function useTaps(sayAgain: () => void): void {
  const again = useRef(sayAgain);
  again.current = sayAgain;
  useEffect(() => {
    const onTap = ({ timeStamp }: Event) => {
      const set = senses.peek();
      if (set === null) return;
      if (set.sound !== 'off' || set.voice === 'on') wakeSound(timeStamp);
      if (set.voice === 'on') unlockVoice();
    };
    const onKey = (event: KeyboardEvent) => {
      onTap(event);
      const key = senses.peek()?.againKey ?? '';
      if (key === '' || event.key !== key || document.querySelector('dialog[open]')) return;
      event.preventDefault();
      if (!event.repeat) again.current();
    };
    addEventListener('click', onTap, { capture: true });
    addEventListener('keydown', onKey, { capture: true });
    return () => {
      removeEventListener('click', onTap, { capture: true });
      removeEventListener('keydown', onKey, { capture: true });
    };
  }, []);
}
