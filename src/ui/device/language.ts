/** The language this device was told to speak. Kept apart from the settings: it is needed before they can be read. */
import { type Language, languageFrom, languageOf } from '../language/languages.ts';

const KEY = 'fellmark-language';

/** The chosen language, else the reader's own where the app speaks it. */
export function spokenLanguage(): Language {
  if (typeof localStorage === 'undefined') return 'en';
  try {
    return languageFrom(localStorage.getItem(KEY)) ?? languageOf(navigator.languages);
  } catch {
    // A browser that stores nothing still has a reader.
    return languageOf(navigator.languages);
  }
}

/** Takes effect when the page is next loaded: words are looked up once. */
export function keepLanguage(language: Language): void {
  localStorage.setItem(KEY, language);
}
