/** The warp order: rows of stripes, how they will look, and the same in one line of text. */
import { useMemo } from 'preact/hooks';
import { formatStripes, parseStripes } from '../../../core/plan/orderText.ts';
import type { Letter, Stripe, Yarn } from '../../../core/plan/plan.ts';
import { warpBands } from '../../../core/planner/orderBands.ts';
import { t } from '../../language/t.ts';
import { groupWords } from './rows/fields/groupFields.tsx';
import { StripeFields } from './rows/fields/stripeFields.tsx';
import { OrderEditor } from './rows/orderEditor.tsx';
import { type RowTrade, type RowWords, yarnOf } from './rows/orderRows.ts';

export interface StripesEditorProps {
  readonly stripes: readonly Stripe[];
  readonly yarns: readonly Yarn[];
  /** Where the stripes stand in the plan: `warp.order`. */
  readonly path: string;
  /** Edits with the same `about` in a row are one step to undo; each with null is one of its own. */
  readonly onChange: (stripes: readonly Stripe[], about: string | null) => void;
}

export function StripesEditor({ stripes, yarns, path, onChange }: StripesEditorProps) {
  const trade = useMemo(() => tradeIn(yarns), [yarns]);
  return (
    <OrderEditor
      rows={stripes}
      yarns={yarns}
      path={path}
      onChange={onChange}
      trade={trade}
      thread="end"
      hint={t('For example: 24 A, 9 turns of (2 B, 2 A), 3 times (4 A, 2 B), mirror (12 A, 6 B).')}
      format={formatStripes}
      parse={parseStripes}
    />
  );
}

function tradeIn(yarns: readonly Yarn[]): RowTrade<Stripe> {
  const solid = (yarn: Letter): Stripe => ({ kind: 'solid', yarn, ends: 12 });
  return {
    words: (stripe) => wordsOf(stripe, yarns),
    bands: warpBands,
    fields: (stripe, path, set) => (
      <StripeFields stripe={stripe} yarns={yarns} path={path} set={set} />
    ),
    wrap: (kind, of) =>
      kind === 'repeat' ? { kind, times: 2, of } : { kind, centre: 'shared', of },
    make: (kind, before) => {
      const seen = before === undefined ? undefined : warpBands([before])?.at(-1)?.yarn;
      const [one, two] = freshYarns(yarns, seen);
      const both = [solid(one), solid(two)];
      switch (kind) {
        case 'solid':
          return solid(one);
        case 'alternation': {
          const cycle = [one, two].map((yarn) => ({ yarn, ends: 2 }));
          return { kind, cycle, turns: 9 };
        }
        case 'repeat':
          return { kind, times: 2, of: both };
        case 'mirror':
          return { kind, centre: 'shared', of: both };
      }
    },
  };
}

function wordsOf(stripe: Stripe, yarns: readonly Yarn[]): RowWords {
  switch (stripe.kind) {
    case 'solid':
      return {
        turns: [{ yarn: stripe.yarn, count: null }],
        main: t('{n, plural, one {# end} other {# ends}}', { n: stripe.ends }),
        more: yarnOf(yarns, stripe.yarn).name,
      };
    case 'alternation':
      return {
        turns: stripe.cycle.map(({ yarn, ends }) => ({ yarn, count: ends })),
        main: t('{n, plural, one {# turn} other {# turns}}', { n: stripe.turns }),
        more: '',
      };
    case 'repeat':
    case 'mirror':
      return groupWords(stripe, stripe.of.length);
  }
}

/** Two yarns for a new row, the first another than the one that is seen before it. */
export function freshYarns(
  yarns: readonly Yarn[],
  seen: Letter | undefined,
): readonly [Letter, Letter] {
  const letters = yarns.map((yarn) => yarn.letter);
  const one = letters.find((letter) => letter !== seen) ?? letters[0] ?? 'A';
  return [one, letters.find((letter) => letter !== one) ?? one];
}
