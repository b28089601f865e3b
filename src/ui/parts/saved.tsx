/** Whether all that happened is on the disk. */
import { say } from '../messages.ts';
import { trouble, unsaved } from '../state.ts';

/**
 * The red bar says what is wrong; then nothing here may say that all is well. Both words have their
 * room, so that a tap changes which of them is seen and moves nothing.
 */
export function Saved() {
  const safe = unsaved.value === 0 && trouble.value === null;
  return (
    <p class="saved" data-saved={safe}>
      <span class="saved-yes">{say.saved}</span>
      <span class="saved-not">{trouble.value === null ? say.saving : say.notSaved}</span>
    </p>
  );
}
