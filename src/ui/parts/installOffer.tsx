/** How Fellmark comes onto the home screen, and why it should: said before there is anything to lose. */
import type { ComponentChildren } from 'preact';
import { type InstallWay, install, installWay } from '../device/install.ts';
import { t } from '../language/t.ts';
import '../style/install.css';

const WHY = t('It then opens like any app, needs no network, and what you keep is safer.');
const WEEK = t(
  'In a tab, Safari deletes everything after seven days without a visit. On the home screen it stays, in a store of its own that does not see this tab: so begin there.',
);

const WORDS: Record<InstallWay, readonly string[]> = {
  installed: [],
  none: [],
  ask: [WHY],
  menu: [WHY, t('In the menu of your browser, choose “Install app” or “Add to Home screen”.')],
  safari: [WEEK, t('Tap Share, then “Add to Home Screen”.')],
  'safari-desk': [WEEK, t('In the File menu, choose “Add to Dock”.')],
};

/** Nothing where it is installed already, or nobody knows how. `children`: more buttons. */
export function InstallOffer({ children }: { readonly children?: ComponentChildren }) {
  const way = installWay.value;
  const words = WORDS[way];
  if (words.length === 0) return null;
  return (
    <section class="install-offer" aria-labelledby="install-title">
      <h2 id="install-title">{t('Put the app on your home screen')}</h2>
      {words.map((it) => (
        <p key={it}>{it}</p>
      ))}
      <div class="install-buttons">
        {way === 'ask' ? (
          <button type="button" class="button strong" onClick={() => void install()}>
            {t('Install')}
          </button>
        ) : null}
        {children}
      </div>
    </section>
  );
}
