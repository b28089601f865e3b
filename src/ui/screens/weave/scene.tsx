/** The scene: cloth, fell, the picks to come and the shuttles beside them. All of it throws the pick. */
import { useMemo } from 'preact/hooks';
import { pieceAt } from '../../../core/bench/pickAt.ts';
import { type PickRow, sceneAt } from '../../../core/bench/scene.ts';
import { sideCode } from '../../../core/bench/stripes.ts';
import { endsPerMm } from '../../../core/plan/geometry.ts';
import { throwPick } from '../../actions.ts';
import { isNarrow } from '../../device/narrow.ts';
import { ground, reducedMotion } from '../../device/theme.ts';
import { t } from '../../language/t.ts';
import type { WovenPicks } from '../../parts/cloth/scene.ts';
import { ClothCanvas } from '../../parts/clothCanvas.tsx';
import { type Threads, threadsOf } from '../../parts/threadsOf.ts';
import { useBehind, useIsSeen } from '../../parts/useBehind.ts';
import { facts, type Session } from '../../state.ts';
import { Shuttles, type ShuttlesProps } from './shuttles.tsx';

/** More rows than any screen shows. */
const BACK = 240;
const AHEAD = 40;

export function Scene({ now }: { readonly now: Session }) {
  const next = facts.value;
  const narrow = isNarrow.value;
  // The first frame of a start tells where the weaver is; the cloth follows.
  const isSeen = useIsSeen();
  return (
    <>
      <button
        type="button"
        class="scene"
        aria-label={next === null ? t('Woven to the end') : t('Throw the pick')}
        onClick={(event) => throwPick(event.timeStamp)}
      >
        {isSeen ? <Cloth now={now} narrow={narrow} /> : null}
      </button>
      {next === null ? null : <Beside plan={now.plan} narrow={narrow} parked={next.parked} />}
    </>
  );
}

function Cloth({ now, narrow }: { readonly now: Session; readonly narrow: boolean }) {
  const { plan, progress } = now;
  const { course, pick } = progress;
  const threads = useMemo(() => threadsOf(plan), [plan]);
  const cloth = useMemo(() => clothOf(now, threads), [course, pick, threads]);
  const next = facts.value;
  return (
    <ClothCanvas
      label=""
      ends={threads.ends}
      lifts={threads.lifts}
      woven={cloth.woven}
      coming={cloth.coming}
      next={cloth.next}
      aspect={aspectOf(now)}
      ground={ground.value}
      motion={reducedMotion() ? 'still' : 'gentle'}
      gutter={narrow ? 46 : 136}
      {...(next === null ? {} : { openShed: next.shed })}
    />
  );
}

/** The shuttles are laid down behind the frame in which the pick goes in. */
function Beside({ parked, ...look }: ShuttlesProps) {
  const lying = useBehind(parked);
  return (
    <div class="beside">
      <Shuttles {...look} parked={lying} />
    </div>
  );
}

/** Distance from pick to pick over distance from end to end, on the loom. */
function aspectOf({ plan }: Session): number {
  return plan.weaving.pickSpacing * endsPerMm(plan.loom);
}

function clothOf({ plan, progress }: Session, { colours }: Threads) {
  const { course, pick } = progress;
  const piece = pieceAt(course, pick);
  const scene = sceneAt(course, piece, pick, BACK, AHEAD);
  const pixels = (rows: readonly PickRow[]) =>
    Uint32Array.from(rows, (row) => (row.yarn === null ? 0 : (colours[row.yarn] ?? 0)));
  const woven = (rows: readonly PickRow[]): WovenPicks => ({
    colours: pixels(rows),
    sheds: Uint8Array.from(rows, (row) => row.shed),
    from: Uint8Array.from(rows, (row) => sideCode(row.from)),
    before: scene.before,
  });
  const [coming] = scene.coming;
  return {
    woven: woven(scene.woven),
    next: () => (coming === undefined ? null : woven([...scene.woven, coming])),
    coming: {
      colours: pixels(scene.coming),
      letters: scene.coming.map((row) =>
        row.yarn === null ? '' : (plan.yarns[row.yarn]?.letter ?? ''),
      ),
    },
  };
}
