/** Demo warps to weave at once; they are marked as demos and stay apart from the weaver's own. */

import { useEffect, useState } from 'preact/hooks';
import { NO_ADJUSTMENTS } from '../../../core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../core/bench/course.ts';
import { checkPlan } from '../../../core/plan/checkPlan.ts';
import { DEMOS, type Demo } from '../../../demos/demos.ts';
import { t } from '../../language/t.ts';
import { openDemo } from '../../opening.ts';
import { PiecePicture } from '../../parts/piecePicture.tsx';
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
  const [course, setCourse] = useState<Course | null>(null);
  useEffect(() => {
    void demo.load().then((plan) => {
      const checked = checkPlan(plan);
      if (checked.ok) setCourse(layCourse(checked.value, NO_ADJUSTMENTS));
    });
  }, [demo]);
  return (
    <article class="demo">
      <div class="demo-picture">
        {course === null ? null : <PiecePicture course={course} piece={0} woven={course.picks} />}
      </div>
      <h3>{names.plan}</h3>
      <p>{names.words}</p>
      <button
        type="button"
        class="button strong"
        onClick={() =>
          void demo.load().then((plan) => openDemo(plan, (it) => withNames(it, names)))
        }
      >
        {t('Weave this')}
      </button>
    </article>
  );
}
