/** The woven cloth of a piece as a strip, and the two handles that hold a stretch of it. */

import { useRef } from 'preact/hooks';
import { endDraggedTo, movedEnd, type StretchEnd } from '../../../core/bench/byEye/choosing.ts';
import type { Stretch } from '../../../core/bench/byEye/stretch.ts';
import type { Course } from '../../../core/bench/course.ts';
import { t } from '../../language/t.ts';
import { still } from '../../parts/still.ts';
import { StretchPicture, type StretchPictureProps } from '../../parts/stretchPicture.tsx';

export interface StripProps {
  readonly course: Course;
  readonly piece: number;
  /** All that may be chosen: what is woven. */
  readonly within: Stretch;
  readonly stretch: Stretch;
  readonly onStretch: (stretch: Stretch) => void;
}

/** Painted once, however often a handle moves. */
const Picture = still(
  ({ from, to, ...of }: Pick<StretchPictureProps, 'course' | 'piece' | 'label'> & Stretch) => (
    <StretchPicture {...of} stretch={{ from, to }} look="whole" />
  ),
);

export function Strip({ course, piece, within, stretch, onStretch }: StripProps) {
  const cloth = useRef<HTMLDivElement>(null);
  const name = course.plan.pieces[piece]?.name ?? '';
  const share = (pick: number) => `${(100 * (pick - within.from)) / (within.to - within.from)}%`;
  const pickUnder = (x: number) => {
    const { left = 0, width = 1 } = cloth.current?.getBoundingClientRect() ?? {};
    return within.from + ((x - left) / width) * (within.to - within.from);
  };
  const handle = (end: StretchEnd) => ({
    end,
    at: share(stretch[end]),
    within,
    stretch,
    onDrag: (x: number) => onStretch(endDraggedTo(within, stretch, end, pickUnder(x))),
    onStep: (way: 1 | -1) => onStretch(movedEnd(course, within, stretch, { end, by: 'pick', way })),
  });
  return (
    <div class="strip">
      <div class="strip-cloth" ref={cloth}>
        <Picture
          course={course}
          piece={piece}
          from={within.from}
          to={within.to}
          label={t('The cloth of {name} so far, its beginning at the left', { name })}
        />
        <span class="strip-off" style={{ left: '0', width: share(stretch.from) }} />
        <span class="strip-off" style={{ left: share(stretch.to), right: '0' }} />
        <Handle {...handle('from')} />
        <Handle {...handle('to')} />
      </div>
    </div>
  );
}

interface HandleProps {
  readonly end: StretchEnd;
  readonly at: string;
  readonly within: Stretch;
  readonly stretch: Stretch;
  /** To this place across the screen (CSS pixels). */
  readonly onDrag: (x: number) => void;
  readonly onStep: (way: 1 | -1) => void;
}

const KEYS: Readonly<Record<string, 1 | -1>> = {
  ArrowLeft: -1,
  ArrowDown: -1,
  ArrowRight: 1,
  ArrowUp: 1,
};

function Handle({ end, at, within, stretch, onDrag, onStep }: HandleProps) {
  const grip = useRef<number | null>(null);
  const pick = stretch[end] - within.from;
  return (
    <div
      class="strip-handle"
      data-end={end}
      style={{ left: at }}
      role="slider"
      tabIndex={0}
      aria-label={end === 'from' ? t('Beginning of the stretch') : t('End of the stretch')}
      aria-valuemin={0}
      aria-valuemax={within.to - within.from}
      aria-valuenow={pick}
      aria-valuetext={
        end === 'from' ? t('before pick {n}', { n: pick + 1 }) : t('after pick {n}', { n: pick })
      }
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        // Where in the handle it was taken, so that it does not jump.
        const { left, right } = event.currentTarget.getBoundingClientRect();
        grip.current = event.clientX - (end === 'from' ? right : left);
      }}
      onPointerMove={(event) => {
        if (grip.current !== null) onDrag(event.clientX - grip.current);
      }}
      onPointerUp={() => {
        grip.current = null;
      }}
      onPointerCancel={() => {
        grip.current = null;
      }}
      onKeyDown={(event) => {
        const way = KEYS[event.key];
        if (way === undefined) return;
        event.preventDefault();
        onStep(way);
      }}
    >
      <span class="strip-grip" aria-hidden="true" />
    </div>
  );
}
