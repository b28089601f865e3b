/** Ways for a plan to another device: as a file, as a link, as a code on this screen. */

import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Plan } from '../../../core/plan/plan.ts';
import { LINK_LIMIT, QR_LIMIT } from '../../../core/travel/link.ts';
import type { WarpRecord } from '../../../store/store.ts';
import { t, tParts } from '../../language/t.ts';
import '../../style/travel.css';
import { figure } from '../arrival/words.ts';
import { FileOffer } from '../fileOffer.tsx';
import { noCodeWords, noLinkWords, useLink } from './link.ts';
import { planFile } from './planFile.ts';
import { QrCode } from './qrCode.tsx';
import { warpFile } from './warpFile.ts';

export interface SharePlanProps {
  readonly plan: Plan;
  /** Where the plan is that of a warp: what was woven of it can go along. */
  readonly warp?: WarpRecord;
}

export function SharePlan({ plan, warp }: SharePlanProps) {
  const file = useMemo(() => planFile(plan), [plan]);
  const link = useLink(plan);
  const [large, setLarge] = useState(false);
  if (large && link?.ok === true)
    return <LargeCode plan={plan} link={link.value} onBack={() => setLarge(false)} />;
  return (
    <div class="share">
      <FileOffer what={t('As a file')} name={t('the plan as a file')} file={file} />
      {link === null ? null : link.ok ? (
        <>
          <LinkOffer link={link.value} />
          <CodeOffer link={link.value} onLarge={() => setLarge(true)} />
        </>
      ) : (
        <p class="hint">{noLinkWords(link.problem)}</p>
      )}
      {warp === undefined ? null : <WarpOffer warp={warp} />}
    </div>
  );
}

/** All of the warp, so that weaving goes on on another device. */
function WarpOffer({ warp }: { readonly warp: WarpRecord }) {
  const [file, setFile] = useState<File | string | null>(null);
  useEffect(() => {
    let wanted = true;
    setFile(null);
    void warpFile(warp).then(
      (made) => wanted && setFile(made),
      () => wanted && setFile(t('The log could not be read from this device’s storage.')),
    );
    return () => {
      wanted = false;
    };
  }, [warp]);
  return (
    <FileOffer
      what={t('As a file with all that was woven, to go on elsewhere')}
      name={t('the warp with its log')}
      file={file}
    />
  );
}

/** `copied`, or why the weaver has to do it by hand. */
type Copied = 'not-yet' | 'copied' | 'refused';

function LinkOffer({ link }: { readonly link: string }) {
  const [copied, setCopied] = useState<Copied>('not-yet');
  const copy = () => {
    navigator.clipboard.writeText(link).then(
      () => setCopied('copied'),
      () => setCopied('refused'),
    );
  };
  return (
    <section class="offer-file">
      <div>
        <h3>{t('As a link')}</h3>
        <p>
          {t('{got} of {most} characters. The plan is in the link itself: it lies on no server.', {
            got: figure(link.length),
            most: figure(LINK_LIMIT),
          })}
        </p>
      </div>
      <button type="button" class="button" onClick={copy}>
        {copied === 'copied' ? t('Copied') : t('Copy the link')}
      </button>
      <input
        type="text"
        class="share-link"
        readOnly
        aria-label={t('The link')}
        value={link}
        onFocus={(event) => event.currentTarget.select()}
      />
      <p class="share-told" role="status">
        {COPIED[copied]}
      </p>
    </section>
  );
}

const COPIED: Record<Copied, string> = {
  'not-yet': '',
  copied: t('The link is copied: paste it into a message or a mail.'),
  refused: t('The browser does not let us copy: mark the link above and copy it.'),
};

interface CodeOfferProps {
  readonly link: string;
  readonly onLarge: () => void;
}

function CodeOffer({ link, onLarge }: CodeOfferProps) {
  if (link.length > QR_LIMIT) return <p class="hint">{noCodeWords(link)}</p>;
  return (
    <section class="offer-file">
      <div>
        <h3>{t('As a code')}</h3>
        <p>{t('For the Fellmark on your tablet: it reads the code off this screen.')}</p>
      </div>
      <button type="button" class="button" onClick={onLarge}>
        {t('Show the code')}
      </button>
    </section>
  );
}

interface LargeCodeProps {
  readonly plan: Plan;
  readonly link: string;
  readonly onBack: () => void;
}

function LargeCode({ plan, link, onBack }: LargeCodeProps) {
  return (
    <div class="large-code">
      <QrCode text={link} label={t('QR code of {name}', { name: plan.name })} />
      <div class="large-code-words">
        <p>
          {tParts(
            'On the tablet open Fellmark, tap {scan} and hold it so that the code fills the frame.',
            { scan: <strong>{t('Scan a plan')}</strong> },
          )}
        </p>
        <p class="hint">
          {t(
            'The tablet’s own camera opens the plan in a browser tab. On an iPad that is not the Fellmark on the home screen.',
          )}
        </p>
        <button type="button" class="button" onClick={onBack}>
          {t('Other ways')}
        </button>
      </div>
    </div>
  );
}
