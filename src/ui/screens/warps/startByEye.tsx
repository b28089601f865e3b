/** The way to weave without a plan. */
import { useState } from 'preact/hooks';
import { t } from '../../language/t.ts';
import { lazily } from '../../parts/lazily.tsx';

const ByEyeSheet = lazily(async () => (await import('./byEye/byEyeSheet.tsx')).ByEyeSheet);

export function StartByEye() {
  const [asking, setAsking] = useState(false);
  return (
    <>
      <button type="button" class="button" onClick={() => setAsking(true)}>
        {t('Weave by eye')}
      </button>
      {asking ? <ByEyeSheet onClose={() => setAsking(false)} /> : null}
    </>
  );
}
