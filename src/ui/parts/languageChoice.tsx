/** The language of the screens: chosen here, and spoken after a reload at the same place. */
import { useState } from 'preact/hooks';
import { allSaved, guarded, theStore } from '../actions.ts';
import { keepLanguage } from '../device/language.ts';
import { LANGUAGES, type Language } from '../language/languages.ts';
import { language, t } from '../language/t.ts';
import { settings, storeState, trouble, unsaved } from '../state.ts';
import { Choice } from './choice.tsx';

export function LanguageChoice() {
  const [waiting, setWaiting] = useState<Language | null>(null);
  const choose = async (it: Language) => {
    try {
      keepLanguage(it);
    } catch {
      // The red bar says that this browser stores nothing.
      return;
    }
    setWaiting(it);
    if (it !== language && (await isAllSaved())) location.reload();
  };
  const isHeldUp = waiting !== null && waiting !== language;
  return (
    <>
      <Choice
        label={t('Language')}
        chosen={waiting ?? language}
        onChoose={(it) => void choose(it)}
        options={LANGUAGES.map(({ code, name, isFinished }) => ({
          value: code,
          words: isFinished ? name : t('{language} (begun)', { language: name }),
        }))}
      />
      {isHeldUp && trouble.value !== null ? (
        <p class="hint" role="status">
          {t('Not everything is saved: the language changes when Fellmark is next opened.')}
        </p>
      ) : null}
    </>
  );
}

/** A reload loses what is on no disk. What is set is written in order, so the last write is the end of all. */
async function isAllSaved(): Promise<boolean> {
  await allSaved();
  // A window that only follows has nothing to write, and must not become the one that writes.
  if (storeState.peek().pen === 'elsewhere') return true;
  const isKept = await guarded(theStore().setSetting('settings', settings.peek()));
  return isKept && unsaved.peek() === 0 && trouble.peek() === null;
}
