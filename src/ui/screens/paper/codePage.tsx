/** The plan itself as a code on paper: what brings it back when a device is lost, or onto other looms. */
import { encode } from 'uqr';
import { QR_LIMIT } from '../../../core/travel/link.ts';
import { t, tParts } from '../../language/t.ts';
import { noCodeWords, noLinkWords, useLink } from '../../parts/share/link.ts';
import type { CardPagesProps } from './loomCardPages.tsx';
import { Page } from './page.tsx';

export function CodePage({ job, paper }: CardPagesProps) {
  const { plan } = job.course;
  const link = useLink(plan);
  if (link === null) return null;
  const words = !link.ok
    ? noLinkWords(link.problem)
    : link.value.length > QR_LIMIT
      ? noCodeWords(link.value)
      : null;
  return (
    <Page paper={paper} title={t('The plan as a code')} about={plan.name} page={0} of={1}>
      {words === null && link.ok ? (
        <>
          <Code text={link.value} label={t('QR code of {name}', { name: plan.name })} />
          <p class="card-what">
            {tParts('Open Fellmark, tap {scan} and hold this page before the camera.', {
              scan: <strong key="scan">{t('Scan a plan')}</strong>,
            })}
          </p>
          <p class="card-small">
            {t(
              'In the middle of a warp: put the plan on the loom, then More, Find my place, and tell the piece and the pick. The loom card has the first pick of every block.',
            )}
          </p>
        </>
      ) : (
        <p class="card-what">{words}</p>
      )}
    </Page>
  );
}

/** Modules left white all round (ISO/IEC 18004). */
const QUIET = 4;

/** Drawn in lines, not pixels, so that a printer makes it as sharp as it can. */
function Code({ text, label }: { readonly text: string; readonly label: string }) {
  const { data, size } = encode(text, { ecc: 'L', boostEcc: true, border: QUIET });
  const dark = data.flatMap((row, y) => row.map((on, x) => (on ? `M${x} ${y}h1v1h-1z` : '')));
  return (
    <svg class="paper-code" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label}>
      <path d={dark.join('')} shape-rendering="crispEdges" />
    </svg>
  );
}
