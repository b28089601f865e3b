/** The link of a plan, made when it is asked for, and why there is none. */
import { useEffect, useState } from 'preact/hooks';
import type { Result } from '../../../core/measure/result.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { QR_LIMIT } from '../../../core/travel/link.ts';
import { appAddress } from '../../device/address.ts';
import { t } from '../../language/t.ts';
import { type LinkProblem, planLink } from '../../travelling.ts';
import { figure } from '../arrival/words.ts';

/** Null while it is being made. */
export function useLink(plan: Plan): Result<string, LinkProblem> | null {
  const [link, setLink] = useState<Result<string, LinkProblem> | null>(null);
  useEffect(() => {
    let wanted = true;
    setLink(null);
    void planLink(plan, appAddress()).then((made) => {
      if (wanted) setLink(made);
    });
    return () => {
      wanted = false;
    };
  }, [plan]);
  return link;
}

export function noLinkWords(problem: LinkProblem): string {
  if (problem.code === 'old-browser')
    return t('This browser is too old to make a link: use the file.');
  return t('Too long for a link or a code: {got} of {most} characters. Use the file.', {
    got: figure(problem.got),
    most: figure(problem.most),
  });
}

export function noCodeWords(link: string): string {
  return t('Too long for a code: {got} of {most} characters. The link and the file still work.', {
    got: figure(link.length),
    most: figure(QR_LIMIT),
  });
}
