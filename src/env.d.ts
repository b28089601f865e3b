interface ImportMetaEnv {
  /** Of package.json, put in by the build. */
  readonly APP_VERSION: string;
  /** Of the code that folds a log, put in by the build. */
  readonly FOLD_VERSION: string;
}

/** Made by the build from src/catalogues. */
declare module 'fellmark:catalogues' {
  import type { Tokens } from './ui/language/filled.ts';
  import type { Language } from './ui/language/languages.ts';

  /** Key of the English message to the words of the language. */
  export function loadCatalogue(
    language: Exclude<Language, 'en'>,
  ): Promise<Readonly<Record<string, string>>>;
  export const readMessage: (words: string) => Tokens;
}
