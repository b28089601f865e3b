/** The languages of the screens, and which of them this device speaks. */

/** In their own words, with their decimal mark; the finished ones first. */
export const LANGUAGES = [
  { code: 'en', name: 'English', decimal: '.', isFinished: true },
  { code: 'fr', name: 'Français', decimal: ',', isFinished: true },
  { code: 'de', name: 'Deutsch', decimal: ',', isFinished: false },
] as const;

export type Language = (typeof LANGUAGES)[number]['code'];

/** The first of the reader's languages that is finished; English where none is. */
export function languageOf(preferred: readonly string[]): Language {
  const codes = preferred.map((it) => it.slice(0, 2).toLowerCase());
  const finished = LANGUAGES.filter(({ isFinished }) => isFinished);
  for (const code of codes) {
    const known = finished.find((it) => it.code === code);
    if (known !== undefined) return known.code;
  }
  return 'en';
}

/** What was chosen on this device before; null where nothing sensible was. */
export function languageFrom(kept: string | null): Language | null {
  return LANGUAGES.find(({ code }) => code === kept)?.code ?? null;
}
