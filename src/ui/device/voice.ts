/**
 * The device's own voice. Only voices that work without a network: what is woven is nobody else's
 * business, and the loom often stands where there is none.
 */
import { signal } from '@preact/signals';

const speech = typeof speechSynthesis === 'undefined' ? null : speechSynthesis;

/** Local voices of the page's language, or all local ones where there is none of it. */
export const voices = signal<readonly SpeechSynthesisVoice[]>([]);

/** There is a voice, and none of the page's language. */
export const speaksForeign = signal(false);

/** Browsers fill their list late. */
function readVoices(): void {
  const local = speech?.getVoices().filter((it) => it.localService) ?? [];
  const language = codeOf(document.documentElement.lang);
  const fitting = local.filter((it) => codeOf(it.lang) === language);
  speaksForeign.value = fitting.length === 0 && local.length > 0;
  // Of those of the language the reader's own country comes first.
  const isNear = (it: SpeechSynthesisVoice) =>
    navigator.languages.includes(it.lang.replace('_', '-'));
  voices.value =
    fitting.length === 0
      ? local
      : [...fitting].sort((a, b) => Number(isNear(b)) - Number(isNear(a)));
}

/** `fr` of `fr-CA`, and of `fr_CA` as some devices write it. */
const codeOf = (tag: string) => tag.split(/[-_]/, 1)[0]?.toLowerCase() ?? '';

readVoices();
speech?.addEventListener?.('voiceschanged', readVoices);

/** A voice that has not begun by then is taken for one that will not. */
const BEGIN_MS = 1000;

export interface Utterance {
  readonly text: string;
  /** What of it must not be lost when the next words cut it short. */
  readonly mustBeHeard: string;
  readonly voiceName: string;
  readonly rate: number;
  /** Called when it has not begun in a second. */
  readonly onSilence: () => void;
}

/** Some browsers forget an utterance nobody refers to, and never say when it ends. */
let speaking: { readonly it: SpeechSynthesisUtterance; readonly mustBeHeard: string } | null = null;

/** Says it now: what is still being said is out of date, but what must be heard is said again after. */
export function speak({ text, mustBeHeard, voiceName, rate, onSilence }: Utterance): void {
  const voice = voices.value.find((it) => it.name === voiceName) ?? voices.value[0];
  if (speech === null || voice === undefined) {
    onSilence();
    return;
  }
  const unheard = speaking?.mustBeHeard ?? '';
  const again = unheard === '' || text.includes(unheard) ? '' : ` ${unheard}`;
  const it = new SpeechSynthesisUtterance(text + again);
  it.voice = voice;
  it.lang = voice.lang;
  it.rate = rate;
  speech.cancel();
  const mine = { it, mustBeHeard: mustBeHeard + again };
  speaking = mine;
  const silence = setTimeout(onSilence, BEGIN_MS);
  it.onstart = () => clearTimeout(silence);
  const end = () => {
    clearTimeout(silence);
    if (speaking === mine) speaking = null;
  };
  it.onend = end;
  it.onerror = end;
  speech.speak(it);
}

/** Inside the first tap: some browsers let a page speak only after it has spoken in one. */
export function unlockVoice(): void {
  if (isUnlocked || speech === null) return;
  isUnlocked = true;
  const nothing = new SpeechSynthesisUtterance('');
  nothing.volume = 0;
  speech.speak(nothing);
}
let isUnlocked = false;

export function hush(): void {
  speaking = null;
  speech?.cancel();
}
