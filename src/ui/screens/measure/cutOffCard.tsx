/** What the bench asks once the cloth is cut off: the warp's own figures, once, and then the cloth's. */
import { useState } from 'preact/hooks';
import { happen, turnTo } from '../../actions.ts';
import { t } from '../../language/t.ts';
import type { Session } from '../../state.ts';
import { WarpSheet } from './warpSheet.tsx';

/** Names the question in the log, so that it is asked once however often the app is opened. */
const WARP_FIGURES = 'warp-figures';

export function CutOffCard({ now }: { readonly now: Session }) {
  const [telling, setTelling] = useState(false);
  const told = now.log.some((it) => it.kind === 'warpRead');
  const asked = told || now.progress.deferred.has(WARP_FIGURES);
  return (
    <div class="dues">
      {asked ? (
        <Card
          title={t('Measure the cloth')}
          text={t('Off the loom now, and again when it is washed: the next plan starts from it.')}
        >
          <button type="button" class="button strong" onClick={() => turnTo('measure')}>
            {t('Measure')}
          </button>
        </Card>
      ) : (
        <Card
          title={t('The warp’s own figures')}
          text={t('Its length as tied on, the wastes and the gaps tell what weaving takes.')}
        >
          <button
            type="button"
            class="button quiet"
            onClick={() => happen({ kind: 'dueDeferred', due: WARP_FIGURES })}
          >
            {t('Skip')}
          </button>
          <button type="button" class="button strong" onClick={() => setTelling(true)}>
            {t('Tell')}
          </button>
        </Card>
      )}
      {telling ? <WarpSheet plan={now.plan} onClose={() => setTelling(false)} /> : null}
    </div>
  );
}

interface CardProps {
  readonly title: string;
  readonly text: string;
  readonly children: preact.ComponentChildren;
}

function Card({ title, text, children }: CardProps) {
  return (
    <section class="due" aria-label={t('Due: {title}', { title })}>
      <p class="due-words">
        <strong>{title}</strong>
        <span>{text}</span>
      </p>
      <div class="due-buttons">{children}</div>
    </section>
  );
}
