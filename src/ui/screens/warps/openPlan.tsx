/** Opening a plan: a file, or a code or link from another device. */
import { useState } from 'preact/hooks';
import { t } from '../../language/t.ts';
import { FileButton } from '../../parts/fileButton.tsx';
import { lazily } from '../../parts/lazily.tsx';
import { openPlanFile } from './openPlanFile.ts';

const ScanSheet = lazily(async () => (await import('./scanSheet.tsx')).ScanSheet);

export function ScanPlan() {
  const [scanning, setScanning] = useState(false);
  return (
    <>
      <button type="button" class="button" onClick={() => setScanning(true)}>
        {t('Scan a plan')}
      </button>
      {scanning ? <ScanSheet onClose={() => setScanning(false)} /> : null}
    </>
  );
}

export function OpenPlan() {
  return (
    <FileButton
      words={t('Open a plan file')}
      label={t('Plan file')}
      onFile={(file) => void openPlanFile(file)}
    />
  );
}
