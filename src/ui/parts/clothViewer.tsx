/**
 * The whole cloth of a plan, thread by thread: moved by finger, wheel, keys or buttons, as large as a
 * single thread and as small as the whole warp, as woven or washed, from near or from farther off.
 */

import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { NO_ADJUSTMENTS } from '../../core/bench/adjustments.ts';
import { layCourse } from '../../core/bench/course.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { type ClothPlan, type ClothState, clothPlan } from '../../core/planner/clothPlan.ts';
import { isDark } from '../device/theme.ts';
import { t } from '../language/t.ts';
import '../style/viewer.css';
import { type Box, useBox } from './useBox.ts';
import { clothWords } from './viewer/clothWords.ts';
import { pageColours } from './viewer/colours.ts';
import { blurAt, DISTANCE_NOTES, type Distance } from './viewer/distance.ts';
import { listen, pressed } from './viewer/gestures.ts';
import { RULER_BELOW, RULER_LEFT } from './viewer/ruler.ts';
import { SavePicture } from './viewer/savePicture.tsx';
import { openStage, type Stage } from './viewer/stage.ts';
import { LookBar, MoveBar } from './viewer/viewerControls.tsx';

export interface ClothViewerProps {
  readonly plan: Plan;
  /** One piece, counted from 0; the whole warp when absent. */
  readonly piece?: number;
  /** What is shown first; the weaver may change it. */
  readonly state?: ClothState;
}

/** Fills its parent, which must have a size of its own. */
export function ClothViewer({ plan, piece, state: first = 'washed' }: ClothViewerProps) {
  const [state, setState] = useState<ClothState>(first);
  const [distance, setDistance] = useState<Distance>('near');
  const [isSaving, setSaving] = useState(false);
  const canvas = useRef<HTMLCanvasElement>(null);
  const room = useRef<HTMLDivElement>(null);
  const box = useBox(room);
  const cloth = useCloth(plan, piece, state, box);
  const patches = useRef<HTMLDivElement>(null);
  const stage = useStage({ canvas, patches }, box, cloth, distance);
  const note = DISTANCE_NOTES[distance];
  const press = (key: string) => {
    const it = canvas.current;
    return it !== null && stage.current !== null && pressed(key, it, stage.current);
  };
  return (
    <section class="viewer" aria-label={t('Picture of the cloth')}>
      <LookBar state={state} onState={setState} distance={distance} onDistance={setDistance} />
      <div ref={room} class="viewer-room">
        <div ref={patches} class="viewer-patches" aria-hidden="true" />
        <canvas
          ref={canvas}
          class="viewer-canvas"
          tabIndex={0}
          role="img"
          aria-label={cloth === null ? t('The cloth') : clothWords(cloth)}
          onKeyDown={(event) => {
            if (!event.ctrlKey && !event.metaKey && press(event.key)) event.preventDefault();
          }}
        />
        {note === null ? null : <p class="viewer-note">{note}</p>}
      </div>
      <MoveBar onPress={press} isSaving={isSaving} onSave={() => setSaving(!isSaving)} />
      {isSaving && cloth !== null ? <SavePicture cloth={cloth} distance={distance} /> : null}
    </section>
  );
}

/** Laid out anew only where the plan, or what is wanted of it, has changed. */
function useCloth(
  plan: Plan,
  piece: number | undefined,
  state: ClothState,
  box: Box | null,
): ClothPlan | null {
  const course = useMemo(() => layCourse(plan, NO_ADJUSTMENTS), [plan]);
  // Only pieces cut apart lie otherwise in a place of another shape.
  const aspect = box === null ? null : placeAspect(box);
  const shape = state === 'washed' && piece === undefined ? aspect : aspect && 1;
  return useMemo(() => {
    if (shape === null) return null;
    return clothPlan(course, { state, aspect: shape, ...(piece === undefined ? {} : { piece }) });
  }, [course, piece, state, shape]);
}

function placeAspect({ width, height }: Box): number | null {
  const [wide, high] = [width - RULER_LEFT, height - RULER_BELOW];
  return wide < 1 || high < 1 ? null : wide / high;
}

interface Painted {
  readonly canvas: RefObject<HTMLCanvasElement | null>;
  readonly patches: RefObject<HTMLElement | null>;
}

function useStage(
  { canvas, patches }: Painted,
  box: Box | null,
  cloth: ClothPlan | null,
  distance: Distance,
): RefObject<Stage | null> {
  const stage = useRef<Stage | null>(null);
  const dark = isDark.value;
  useLayoutEffect(() => {
    const it = canvas.current;
    if (it === null || patches.current === null) return;
    const opened = openStage(it, patches.current);
    stage.current = opened;
    const stop = listen(it, opened);
    return () => {
      stop();
      opened.close();
      stage.current = null;
    };
  }, [canvas, patches]);
  const show = () => {
    if (cloth === null) return;
    const look = pageColours();
    const sight = { blur: blurAt(distance), ground: look.groundPixel };
    stage.current?.show({ cloth, sight }, look);
  };
  // In the first frame that is painted.
  useLayoutEffect(show, [cloth, distance]);
  // A theme is on the document only after the effects of the render that chose it.
  const shownIn = useRef(dark);
  useEffect(() => {
    if (shownIn.current === dark) return;
    shownIn.current = dark;
    show();
  }, [dark]);
  useLayoutEffect(() => {
    if (box !== null) stage.current?.place(box.width, box.height, box.dpr);
  }, [box]);
  return stage;
}
