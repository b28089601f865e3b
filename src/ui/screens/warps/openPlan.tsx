/** Opening a plan file. The input filters nothing: tablets give files odd types. */
import { useRef } from 'preact/hooks';
import { openPlanFile } from '../../actions.ts';

export function OpenPlan() {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class="button" onClick={() => input.current?.click()}>
        Open a plan file
      </button>
      <input
        ref={input}
        type="file"
        class="unseen"
        tabIndex={-1}
        aria-label="Plan file"
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          if (file !== undefined) void openPlanFile(file);
        }}
      />
    </>
  );
}
