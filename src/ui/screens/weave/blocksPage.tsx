/** The blocks of this piece: what each keeps, and longer, shorter, ended or skipped by hand. */
import { type BlockHere, blocksHere } from '../../../core/bench/blocksHere.ts';
import type { Keep } from '../../../core/bench/events.ts';
import { happen } from '../../actions.ts';
import { length, list } from '../../format.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import '../../style/left.css';
import { Swatch } from '../../parts/swatch.tsx';
import type { Session } from '../../state.ts';
import { endHere, endPart } from './byEye/endingByEye.ts';
import { ROLE_WORDS } from './pickWords.ts';

const KEEP_OPTIONS = [
  { value: 'length', words: t('Length') },
  { value: 'picks', words: t('Picks') },
] as const;

export function BlocksPage({ now }: { readonly now: Session }) {
  const blocks = blocksHere(now.progress);
  const first = blocks[0]?.block.piece ?? 0;
  const hasMirror = blocks.some(({ block }) => block.laid.mirrored);
  return (
    <div class="form">
      <p>
        {t(
          'A block that keeps its length gets other picks as the real beat becomes known, in whole turns; one that keeps its picks gets another length. What is woven stays.',
        )}
      </p>
      {hasMirror ? (
        <Choice
          label={t('The second half of a mirror matches the first in its')}
          chosen={now.progress.keeping.mirrors.get(first) ?? null}
          onChoose={(by: Keep) => happen({ kind: 'mirrorKept', piece: first, by })}
          options={KEEP_OPTIONS}
        />
      ) : null}
      <ol class="blocks-here">
        {blocks.map((it) => (
          <BlockRow key={it.block.index} now={now} it={it} />
        ))}
      </ol>
    </div>
  );
}

interface BlockRowProps {
  readonly now: Session;
  readonly it: BlockHere;
}

function BlockRow({ now, it }: BlockRowProps) {
  const { block, state } = it;
  const { plan } = now;
  const yarns = [...new Set(block.laid.period.yarns)];
  return (
    <li class="block-here" data-state={state}>
      <div class="block-yarns">
        {yarns.map((yarn) => {
          const one = plan.yarns[yarn];
          return one === undefined ? null : <Swatch key={yarn} yarn={one} />;
        })}
      </div>
      <div class="block-words">
        <p class="left-much">{titleOf(now, it)}</p>
        <p>{block.laid.isOpen ? openWords(now, it) : pickWords(now, it)}</p>
      </div>
      {state === 'woven' ? (
        <p class="block-done">{t('woven')}</p>
      ) : block.laid.role === 'free' ? (
        <FreeTools now={now} it={it} />
      ) : (
        <BlockTools it={it} />
      )}
    </li>
  );
}

function pickWords(now: Session, it: BlockHere): string {
  const { picks, loomLength } = it.block;
  const { units } = now.plan;
  return t(
    '{n, plural, one {# pick} other {# picks}}, {length}{changed, select, yes { (planned {picks}, {planned})} other {}}{state, select, here {; {woven} woven} other {}}',
    {
      n: picks,
      length: length(loomLength, units),
      changed: picks === it.plannedPicks ? 'no' : 'yes',
      picks: it.plannedPicks,
      planned: length(it.plannedLength, units),
      state: it.state,
      woven: it.woven,
    },
  );
}

/** Of a part woven by eye only what is thrown is known. */
function openWords({ plan }: Session, { block, woven }: BlockHere): string {
  const it = block.laid.block;
  const meant = it?.kind === 'free' ? it.loomLength : undefined;
  return meant === undefined
    ? t('{n, plural, one {# pick} other {# picks}} thrown', { n: woven })
    : t('{n, plural, one {# pick} other {# picks}} thrown; about {length} are meant', {
        n: woven,
        length: length(meant, plan.units),
      });
}

/** It ends when the weaver says so; one to come cannot be skipped before it is reached. */
function FreeTools({ now, it }: BlockRowProps) {
  const end = endHere(now.progress);
  if (end?.block.index !== it.block.index) return <p class="block-done">{t('to come')}</p>;
  return (
    <div class="block-tools">
      <button type="button" class="button" disabled={end.isEmpty} onClick={endPart}>
        {t('End here')}
      </button>
    </div>
  );
}

function titleOf({ plan }: Session, { block }: BlockHere): string {
  const { laid } = block;
  const yarns = [...new Set(laid.period.yarns)].map((yarn) => plan.yarns[yarn]?.name ?? '');
  const names = laid.block === null ? `${ROLE_WORDS[laid.role]}, ${list(yarns)}` : list(yarns);
  const words = laid.role === 'free' ? ROLE_WORDS.free : names;
  return laid.name === null ? words : t('{name}: {words}', { name: laid.name, words });
}

function BlockTools({ it }: { readonly it: BlockHere }) {
  const { piece, ofPiece: block } = it.block;
  const set = (picks: number) => happen({ kind: 'blockSet', piece, block, picks });
  const here = it.state === 'here';
  return (
    <div class="block-tools">
      <button
        type="button"
        class="button"
        disabled={it.shorter === null}
        onClick={() => it.shorter !== null && set(it.shorter)}
      >
        {t('Shorter')}
      </button>
      <button type="button" class="button" onClick={() => set(it.longer)}>
        {t('Longer')}
      </button>
      <button type="button" class="button" onClick={() => set(here ? it.woven : 0)}>
        {here ? t('End here') : t('Skip')}
      </button>
      <Choice
        label={t('Keeps its')}
        chosen={it.keep}
        onChoose={(by: Keep) => happen({ kind: 'blockKept', piece, block, by })}
        options={KEEP_OPTIONS}
      />
    </div>
  );
}
