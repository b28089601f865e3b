/** What is said about a plan that came by link or code, and about one that did not come whole. */
import { language, t } from '../../language/t.ts';
import type { ArrivalProblem } from '../../travelling.ts';

export interface TroubleWords {
  readonly wrong: string;
  readonly right: string;
}

export function arrivalWords(problem: ArrivalProblem): TroubleWords {
  switch (problem.code) {
    case 'no-plan-in-it':
      return {
        wrong: t('There is no plan in this link.'),
        right: t(
          'A link to a plan has #plan= in it, and a long row of letters and figures behind it.',
        ),
      };
    case 'cut-short':
      return {
        wrong: t('The link was cut short: {got} of {of} characters came.', {
          got: figure(problem.got),
          of: figure(problem.of),
        }),
        right: t('Copy the whole link, or let the plan come as a file.'),
      };
    case 'changed':
    case 'broken':
      return {
        wrong: t('The link was changed on its way: its check does not agree.'),
        right: t('Copy the whole link again, or let the plan come as a file.'),
      };
    case 'newer':
      return {
        wrong: t('The link was made by a newer Fellmark.'),
        right: t('Update the app, or let the plan come as a file.'),
      };
    case 'too-large':
      return {
        wrong: t('The link holds more than any plan.'),
        right: t('Let the plan come as a file.'),
      };
    case 'old-browser':
      return {
        wrong: t('This browser is too old to read a link.'),
        right: t('Let the plan come as a file.'),
      };
    case 'not-a-plan':
      return {
        wrong: t('What the link holds is not a plan that can be woven:'),
        right: '',
      };
  }
}

const THOUSANDS = new Intl.NumberFormat(language);
export const figure = (n: number) => THOUSANDS.format(n);
