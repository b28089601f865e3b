/** Opening a plan: a file, or a code or link from another device. */
import { useRef, useState } from 'preact/hooks';
import { openFile } from '../../opening.ts';
import { lazily } from '../../parts/lazily.tsx';

const ScanSheet = lazily(async () => (await import('./scanSheet.tsx')).ScanSheet);

export function ScanPlan() {
  const [scanning, setScanning] = useState(false);
  return (
    <>
      <button type="button" class="button" onClick={() => setScanning(true)}>
        Scan a plan
      </button>
      {scanning ? <ScanSheet onClose={() => setScanning(false)} /> : null}
    </>
  );
}

/** The input filters nothing: tablets give files odd types. */
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
          if (file !== undefined) void openFile(file, 'plan');
        }}
      />
    </>
  );
}
