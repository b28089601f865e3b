/** One heddle or reed of the shelf, with a stretch of it at its true proportions. */
import { dentPitch, type ShelfHeddle } from '../../../core/plan/shelf.ts';
import { t } from '../../language/t.ts';
import { settings } from '../../state.ts';
import { dentWords, heddleWords } from './words.ts';

export interface HeddleTileProps {
  readonly heddle: ShelfHeddle;
  readonly onChange: () => void;
}

export function HeddleTile({ heddle, onChange }: HeddleTileProps) {
  return (
    <li class="shelf-tile shelf-heddle">
      <HeddlePicture pitch={dentPitch(heddle.dents)} id={heddle.id} />
      <div class="shelf-words">
        <h3>{heddle.name}</h3>
        <p>{dentWords(heddle.dents)}</p>
        <p class="hint">{heddleWords(heddle, settings.value.units)}</p>
      </div>
      <div class="shelf-buttons">
        <button
          type="button"
          class="button quiet"
          aria-label={t('Change {name}', { name: heddle.name })}
          onClick={onChange}
        >
          {t('Change')}
        </button>
      </div>
    </li>
  );
}

/** The same 24 mm of every heddle, so that a coarse one looks coarse beside a fine one. */
function HeddlePicture({ pitch, id }: { readonly pitch: number; readonly id: string }) {
  return (
    <svg class="heddle-picture" viewBox="0 0 24 24" aria-hidden="true">
      <defs>
        <pattern id={`dents-${id}`} width={pitch} height="24" patternUnits="userSpaceOnUse">
          <rect width={pitch * 0.55} height="16" y="4" class="heddle-bar" />
        </pattern>
      </defs>
      <rect width="24" height="24" fill={`url(#dents-${id})`} />
      <rect width="24" height="3.5" y="1" class="heddle-bar" />
      <rect width="24" height="3.5" y="19.5" class="heddle-bar" />
    </svg>
  );
}
