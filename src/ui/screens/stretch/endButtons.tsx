/** The ends of the stretch moved stripe by stripe and pick by pick. */

import { movedEnd, type StretchEnd, type StretchStep } from '../../../core/bench/byEye/choosing.ts';
import type { Stretch } from '../../../core/bench/byEye/stretch.ts';
import type { Course } from '../../../core/bench/course.ts';
import { t } from '../../language/t.ts';

export interface EndButtonsProps {
  readonly course: Course;
  readonly within: Stretch;
  readonly stretch: Stretch;
  readonly onStretch: (stretch: Stretch) => void;
}

const ENDS: readonly StretchEnd[] = ['from', 'to'];

const STEPS: readonly (readonly [StretchStep, 1 | -1, string])[] = [
  ['stripe', -1, t('‹ Stripe')],
  ['pick', -1, t('‹ Pick')],
  ['pick', 1, t('Pick ›')],
  ['stripe', 1, t('Stripe ›')],
];

export function EndButtons({ course, within, stretch, onStretch }: EndButtonsProps) {
  return (
    <div class="end-buttons">
      {ENDS.map((end) => (
        <fieldset key={end} class="end-steps">
          <legend>
            {t('{end, select, from {Beginning, before pick {n}} other {End, after pick {n}}}', {
              end,
              n: stretch[end] - within.from + (end === 'from' ? 1 : 0),
            })}
          </legend>
          {STEPS.map(([by, way, label]) => {
            const moved = movedEnd(course, within, stretch, { end, by, way });
            return (
              <button
                type="button"
                key={label}
                class="button"
                aria-label={t(
                  '{end, select, from {Beginning} other {End}}: a {by, select, stripe {stripe} other {pick}} {way, select, on {on} other {back}}',
                  {
                    end,
                    by,
                    way: way === 1 ? 'on' : 'back',
                  },
                )}
                disabled={moved[end] === stretch[end]}
                onClick={() => onStretch(moved)}
              >
                {label}
              </button>
            );
          })}
        </fieldset>
      ))}
    </div>
  );
}
