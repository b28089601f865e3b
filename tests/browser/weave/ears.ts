// A device's voice, loudspeaker and motor that only write down what they are given. Only the outermost
// browser calls are replaced: everything of the app is real.
import type { BrowserContext, Page } from 'playwright-core';

export interface Noted {
  /** In the order in which they were begun. */
  readonly said: readonly {
    readonly text: string;
    readonly voice: string;
    readonly rate: number;
  }[];
  /** Pitches in hertz of every tone, one list a moment. */
  readonly tones: readonly number[];
  readonly shaken: readonly (readonly number[])[];
}

export interface Ears {
  /** `silent`: takes the words and never begins. */
  readonly voice: 'speaks' | 'silent' | 'remote-only' | 'none';
}

/** Once for a browser: every page of it that is loaded from now on. */
export async function fitEars(context: BrowserContext): Promise<void> {
  await context.addInitScript(installEars);
}

/** Another kind of device, from the next load on. */
export async function changeEars(page: Page, { voice }: Ears): Promise<void> {
  await page.evaluate((it) => sessionStorage.setItem('voice of the test', it), voice);
  await page.reload();
}

export const notedBy = (page: Page): Promise<Noted> =>
  page.evaluate(() => structuredClone((window as unknown as { noted: Noted }).noted));

function installEars(): void {
  const voice = sessionStorage.getItem('voice of the test') ?? 'speaks';
  const noted = { said: [] as unknown[], tones: [] as number[], shaken: [] as unknown[] };
  Object.assign(window, { noted });
  const local = { name: 'Near', lang: 'en-GB', localService: true, default: true, voiceURI: 'n' };
  const second = { ...local, name: 'Second', default: false, voiceURI: 's' };
  const french = { ...local, name: 'Proche', lang: 'fr-FR', default: false, voiceURI: 'p' };
  const remote = { ...local, name: 'Far', localService: false, voiceURI: 'f' };
  class Utterance {
    text: string;
    voice: { name: string } | null = null;
    lang = '';
    rate = 1;
    volume = 1;
    onstart: (() => void) | null = null;
    onend: (() => void) | null = null;
    onerror: (() => void) | null = null;
    constructor(text: string) {
      this.text = text;
    }
  }
  const speech = {
    getVoices: () => (voice === 'remote-only' ? [remote] : [remote, local, second, french]),
    cancel: () => undefined,
    addEventListener: () => undefined,
    speak: (it: Utterance) => {
      if (it.text === '' || voice === 'silent') return;
      noted.said.push({ text: it.text, voice: it.voice?.name ?? '', rate: it.rate });
      it.onstart?.();
      queueMicrotask(() => it.onend?.());
    },
  };
  Object.defineProperty(window, 'speechSynthesis', {
    value: voice === 'none' ? undefined : speech,
  });
  Object.defineProperty(window, 'SpeechSynthesisUtterance', { value: Utterance });
  const start = OscillatorNode.prototype.start;
  const pitches = new WeakMap<AudioParam, number>();
  const setValueAtTime = AudioParam.prototype.setValueAtTime;
  AudioParam.prototype.setValueAtTime = function (value, at) {
    pitches.set(this, value);
    return setValueAtTime.call(this, value, at);
  };
  OscillatorNode.prototype.start = function (when) {
    noted.tones.push(Math.round(pitches.get(this.frequency) ?? 0));
    start.call(this, when);
  };
  Object.defineProperty(Navigator.prototype, 'vibrate', {
    configurable: true,
    value: (pattern: number[]) => {
      noted.shaken.push(pattern);
      return true;
    },
  });
}
