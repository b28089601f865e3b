/** Demo warps to weave at once; they are marked as demos and stay apart from the weaver's own. */

import { useRef, useState } from 'preact/hooks';
import { NO_ADJUSTMENTS } from '../../../core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../core/bench/course.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { DEMOS, type Demo } from '../../../demos/demos.ts';
import { t } from '../../language/t.ts';
import { PiecePicture } from '../../parts/piecePicture.tsx';
import { useWhenSeen } from '../../parts/whenSeen.ts';
import { DEMO_NAMES, withNames } from './demoNames.ts';

export function DemoOffers({ first }: { readonly first: boolean }) {
  return (
    <section class="warps-group">
      <h2>{first ? t('Try a demo warp') : t('Demo warps')}</h2>
      {first ? (
        <p class="lead">
          {t(
            'Open a plan of your own above, or put one of these on the loom and weave at once. Everything stays on this device and works without a network.',
          )}
        </p>
      ) : null}
      <div class="demos">
        {DEMOS.map((demo) => (
          <DemoTile key={demo.id} demo={demo} />
        ))}
      </div>
    </section>
  );
}

function DemoTile({ demo }: { readonly demo: Demo }) {
  const names = DEMO_NAMES[demo.id];
  const place = useRef<HTMLElement>(null);
  const [course, setCourse] = useState<Course | null>(null);
  // Ours, and held to be a plan by a test: the checker is fetched when it is opened.
  const lay = async () => setCourse(layCourse((await demo.load()) as Plan, NO_ADJUSTMENTS));
  useWhenSeen(place, () => void lay().catch(() => undefined), [demo]);
  return (
    <article ref={place} class="demo">
      <PiecePicture course={course} piece={0} woven={course?.picks ?? 0} />
      <h3>{names.plan}</h3>
      <p>{names.words}</p>
      <button type="button" class="button strong" onClick={() => void open(demo)}>
        {t('Weave this')}
      </button>
    </article>
  );
}

async function open(demo: Demo): Promise<void> {
  const [plan, { openDemo }] = await Promise.all([demo.load(), import('../../opening.ts')]);
  await openDemo(plan, (it) => withNames(it, DEMO_NAMES[demo.id]));
}
