/** A button that opens the device's own file dialogue, or its camera. */
import { useRef } from 'preact/hooks';

export interface FileButtonProps {
  readonly words: string;
  /** What the file is, for those who do not see the button. */
  readonly label: string;
  /** Left out the dialogue filters nothing: tablets give files odd types. */
  readonly accept?: string;
  /** Opens the camera where there is one. */
  readonly camera?: true;
  readonly onFile: (file: File) => void;
}

export function FileButton({ words, label, accept, camera, onFile }: FileButtonProps) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class="button" onClick={() => input.current?.click()}>
        {words}
      </button>
      <input
        ref={input}
        type="file"
        {...(accept === undefined ? {} : { accept })}
        {...(camera === true ? { capture: 'environment' as const } : {})}
        class="unseen"
        tabIndex={-1}
        aria-label={label}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          if (file !== undefined) onFile(file);
        }}
      />
    </>
  );
}
