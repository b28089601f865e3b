/** The planner: parts of the plan on one side, what follows from them always in sight on the other. */
import { useEffect, useState } from 'preact/hooks';
import type { Plan } from '../../../core/plan/plan.ts';
import { showWarps } from '../../actions.ts';
import { checkedDraft, draft } from '../../draft.ts';
import { motifForPlan } from '../../motifPages.ts';
import { ProblemsAt } from '../../parts/problemsAt.tsx';
import { hasUnread } from '../../parts/unread.ts';
import { editPlan, putOnLoom, redoEdit, undoEdit } from '../../planning.ts';
import { loadShelf } from '../../shelf.ts';
import { followed } from '../../state.ts';
import '../../style/plan.css';
import { t } from '../../language/t.ts';
import { LoomPart } from './loomPart.tsx';
import { problemsUnder } from './part.ts';
import { PiecesPart } from './piecesPart.tsx';
import { SumPanel } from './sumPanel.tsx';
import { WarpPart } from './warpPart.tsx';
import { WeavingPart } from './weavingPart.tsx';
import { WrongBadge } from './wrongBadge.tsx';
import { YarnsPart } from './yarnsPart.tsx';

const PARTS = [
  { id: 'loom', words: t('Loom'), paths: ['loom', 'units'], Part: LoomPart },
  { id: 'yarns', words: t('Yarns'), paths: ['yarns'], Part: YarnsPart },
  { id: 'warp', words: t('Warp'), paths: ['warp'], Part: WarpPart },
  { id: 'pieces', words: t('Pieces'), paths: ['pieces'], Part: PiecesPart },
  { id: 'weaving', words: t('Weaving'), paths: ['weaving', 'allowances'], Part: WeavingPart },
] as const;
type PartId = (typeof PARTS)[number]['id'];

export function PlanScreen() {
  const [chosen, setChosen] = useState<PartId>(() =>
    motifForPlan.peek() === null ? 'loom' : 'pieces',
  );
  // Again when another window has changed it.
  const news = followed.value;
  useEffect(() => {
    void loadShelf();
  }, [news]);
  const now = draft.value;
  if (now === null) return null;
  const shown = PARTS.find((part) => part.id === chosen) ?? PARTS[0];
  return (
    <main class="plan">
      <PlanHead plan={now.plan} />
      <nav class="plan-parts" aria-label={t('Parts of the plan')}>
        {PARTS.map((part) => (
          <PartTab
            key={part.id}
            words={part.words}
            wrong={problemsUnder(part.paths)}
            chosen={part.id === chosen}
            onChoose={() => setChosen(part.id)}
          />
        ))}
      </nav>
      <section class="plan-part" key={chosen} aria-label={shown.words}>
        <h2 class="unseen">{shown.words}</h2>
        <shown.Part plan={now.plan} />
        <NextPart chosen={chosen} onChoose={setChosen} />
      </section>
      <SumPanel plan={now.plan} />
    </main>
  );
}

function PlanHead({ plan }: { readonly plan: Plan }) {
  const now = draft.value;
  const ready = checkedDraft.value?.ok === true && !hasUnread();
  return (
    <header class="plan-head">
      <h1 class="unseen">{t('Plan of {name}', { name: plan.name })}</h1>
      <button type="button" class="button quiet" onClick={() => void showWarps()}>
        {t('‹ Warps')}
      </button>
      <input
        type="text"
        class="plan-name"
        aria-label={t('Name of the plan')}
        value={plan.name}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => {
          const name = event.currentTarget.value;
          editPlan((it) => ({ ...it, name }), 'name');
        }}
      />
      <button
        type="button"
        class="button"
        disabled={now === null || now.past.length === 0}
        onClick={() => letGo(undoEdit)}
      >
        <span aria-hidden="true">↶</span> <span class="wide-word">{t('Undo')}</span>
      </button>
      <button
        type="button"
        class="button"
        disabled={now === null || now.future.length === 0}
        onClick={() => letGo(redoEdit)}
      >
        <span aria-hidden="true">↷</span> <span class="wide-word">{t('Redo')}</span>
      </button>
      <button
        type="button"
        class="button strong"
        disabled={!ready}
        onClick={() => void putOnLoom()}
      >
        {t('Put on the loom')}
      </button>
      <ProblemsAt path="name" />
    </header>
  );
}

/** Where a tapped button does not take the focus, a field would go on showing what was typed. */
function letGo(then: () => void): void {
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
  then();
}

interface PartTabProps {
  readonly words: string;
  readonly wrong: number;
  readonly chosen: boolean;
  readonly onChoose: () => void;
}

function PartTab({ words, wrong, chosen, onChoose }: PartTabProps) {
  return (
    <button type="button" class="button part-tab" aria-pressed={chosen} onClick={onChoose}>
      {words}
      <WrongBadge wrong={wrong} />
    </button>
  );
}

interface NextPartProps {
  readonly chosen: PartId;
  readonly onChoose: (part: PartId) => void;
}

function NextPart({ chosen, onChoose }: NextPartProps) {
  const next = PARTS[PARTS.findIndex((part) => part.id === chosen) + 1];
  if (next === undefined) return null;
  return (
    <button type="button" class="button plan-next" onClick={() => onChoose(next.id)}>
      {next.words} ›
    </button>
  );
}
