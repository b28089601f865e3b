/** The words of the rescue page: a table of its own, since no catalogue need be there for it. */

const ENGLISH = {
  title: 'Fellmark: rescue page',
  whole: (kB: number) => `Everything was read: ${kB} kB.`,
  partly: (kB: number) => `What can be read is ready: ${kB} kB. Some of it could not be read.`,
  failed: (why: unknown) => `This page failed: ${why}. Reload it, or try another browser window.`,
  records: (room: string, n: number) => `${room}: ${n} ${n === 1 ? 'record' : 'records'}`,
  files: (n: number) => `Files: ${n}`,
  small: (n: number) => `Small values: ${n}`,
};

const FRENCH: typeof ENGLISH = {
  title: 'Fellmark\u00a0: page de secours',
  whole: (kB) => `Tout a été lu\u00a0: ${kB} ko.`,
  partly: (kB) => `Ce qui peut être lu est prêt\u00a0: ${kB} ko. Une partie n’a pas pu être lue.`,
  failed: (why) =>
    `Cette page a échoué\u00a0: ${why}. La recharger, ou essayer une autre fenêtre du navigateur.`,
  records: (room, n) => `${room}\u00a0: ${n} ${n < 2 ? 'enregistrement' : 'enregistrements'}`,
  files: (n) => `Fichiers\u00a0: ${n}`,
  small: (n) => `Petites valeurs\u00a0: ${n}`,
};

/** As the app decides it, of which nothing need be there: what was chosen, else the reader's own. */
function spoken(): 'en' | 'fr' {
  const chosen = chosenBefore();
  const own = navigator.languages.map((it) => it.slice(0, 2).toLowerCase());
  const first = chosen ?? own.find((it) => it === 'en' || it === 'fr');
  return first === 'fr' ? 'fr' : 'en';
}

function chosenBefore(): string | null {
  try {
    return localStorage.getItem('fellmark-language');
  } catch {
    return null;
  }
}

const language = spoken();
export const words = language === 'fr' ? FRENCH : ENGLISH;

/** The page stands in English; whoever reads French gets the words that lie hidden beside. */
export function speak(): void {
  document.documentElement.lang = language;
  document.title = words.title;
  for (const it of document.querySelectorAll<HTMLElement>('main [lang]'))
    it.hidden = it.lang !== language;
}
