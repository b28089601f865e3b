/** Copies of one warp that were both woven on: the weaver chooses, and nothing is ever added up. */
import { useState } from 'preact/hooks';
import { unsettledFamilies } from '../../../core/backup/merge/families.ts';
import type { WarpRecord } from '../../../store/store.ts';
import { now } from '../../actions.ts';
import { t } from '../../language/t.ts';
import { whenWords } from '../../parts/when.ts';
import type { WarpCard } from '../../state.ts';
import { RemoveSheet } from './lazyRemoveSheet.ts';

const keepBranches = async (warps: readonly WarpRecord[]) =>
  (await import('../../keeping/removing.ts')).keepBranches(warps);

export function BranchChoices({ cards }: { readonly cards: readonly WarpCard[] }) {
  const families = unsettledFamilies(cards.map(({ warp }) => warp));
  return (
    <>
      {families.map((family) => (
        <Family
          key={family.map(({ id }) => id).join()}
          cards={cards.filter(({ warp }) => family.includes(warp))}
        />
      ))}
    </>
  );
}

function Family({ cards }: { readonly cards: readonly WarpCard[] }) {
  const [chosen, setChosen] = useState<WarpCard | null>(null);
  const warps = cards.map(({ warp }) => warp);
  const others = warps.filter((warp) => warp !== chosen?.warp);
  return (
    <section class="branches">
      <h2>
        {t('“{name}” was woven on in {n, plural, =2 {two} other {#}} places', {
          name: warps[0]?.name ?? '',
          n: cards.length,
        })}
      </h2>
      <p>
        {t(
          'Each way is kept as a warp of its own. Keep the one that is on your loom, or all of them.',
        )}
      </p>
      <ul>
        {cards.map((card) => (
          <li key={card.warp.id}>
            <p>{branchWords(card)}</p>
            <button type="button" class="button" onClick={() => setChosen(card)}>
              {t('Keep only this')}
            </button>
          </li>
        ))}
      </ul>
      <button type="button" class="button" onClick={() => void keepBranches(warps)}>
        {cards.length === 2 ? t('Keep both') : t('Keep all')}
      </button>
      {chosen === null ? null : (
        <RemoveSheet
          title={t('Keep only this one?')}
          words={t(
            'The one that {whence, select, here {was here} other {came in with a backup}} stays, with {picks}. {n, plural, one {The other goes} other {The others go}} from this device.',
            {
              whence: chosen.warp.branchOf === undefined ? 'here' : 'backup',
              picks: picksWords(chosen),
              n: others.length,
            },
          )}
          things={{ name: warps[0]?.name ?? '', warps: others, drafts: [] }}
          onClose={() => setChosen(null)}
        />
      )}
    </section>
  );
}

function branchWords(card: WarpCard): string {
  const { wovenAt } = card.warp;
  const woven =
    wovenAt === null ? [] : [t('last woven {when}', { when: whenWords(wovenAt, new Date(now())) })];
  return [picksWords(card), ...woven, whenceWords(card)].join(', ');
}

const picksWords = ({ progress }: WarpCard) =>
  progress === null
    ? t('an unreadable plan')
    : t('{n, plural, one {# pick} other {# picks}}', { n: progress.pick });

/** The copy that comes in is the one that becomes a branch. */
const whenceWords = ({ warp }: WarpCard) =>
  warp.branchOf === undefined ? t('was here') : t('came in with a backup');
