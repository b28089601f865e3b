/** Fields of one stripe of the warp. */
import { LIMITS } from '../../../../../core/plan/limits.ts';
import type { Stripe, Yarn } from '../../../../../core/plan/plan.ts';
import { t } from '../../../../language/t.ts';
import { NumberField } from '../../../../parts/numberField.tsx';
import type { SetRow } from '../orderRows.ts';
import { CycleFields } from './cycleFields.tsx';
import { GroupFields } from './groupFields.tsx';
import { YarnPicker } from './yarnPicker.tsx';

export interface StripeFieldsProps<S extends Stripe = Stripe> {
  readonly stripe: S;
  readonly yarns: readonly Yarn[];
  readonly path: string;
  readonly set: SetRow<Stripe>;
}

export function StripeFields({ stripe, yarns, path, set }: StripeFieldsProps) {
  switch (stripe.kind) {
    case 'solid':
      return <SolidFields stripe={stripe} yarns={yarns} path={path} set={set} />;
    case 'alternation':
      return <AlternationFields stripe={stripe} yarns={yarns} path={path} set={set} />;
    case 'repeat':
    case 'mirror':
      return <GroupFields group={stripe} path={path} set={set} />;
  }
}

type Solid = Extract<Stripe, { kind: 'solid' }>;
type Alternation = Extract<Stripe, { kind: 'alternation' }>;

function SolidFields({ stripe, yarns, path, set }: StripeFieldsProps<Solid>) {
  return (
    <div class="row-fields">
      <YarnPicker
        label={t('Yarn')}
        yarns={yarns}
        chosen={stripe.yarn}
        path={`${path}.yarn`}
        onChoose={(yarn) => set({ ...stripe, yarn }, null)}
      />
      <NumberField
        label={t('Ends')}
        value={stripe.ends}
        least={1}
        most={LIMITS.ends}
        path={`${path}.ends`}
        onValue={(ends) => set({ ...stripe, ends }, `${path}.ends`)}
      />
    </div>
  );
}

function AlternationFields({ stripe, yarns, path, set }: StripeFieldsProps<Alternation>) {
  return (
    <>
      <CycleFields
        cycle={stripe.cycle.map(({ yarn, ends }) => ({ yarn, count: ends }))}
        yarns={yarns}
        thread="ends"
        most={LIMITS.ends}
        path={`${path}.cycle`}
        onCycle={(cycle, about) => {
          const turns = cycle.map(({ yarn, count }) => ({ yarn, ends: count }));
          set({ ...stripe, cycle: turns }, about);
        }}
      />
      <NumberField
        label={t('In all')}
        unit={t('turns')}
        value={stripe.turns}
        least={1}
        most={LIMITS.ends}
        path={`${path}.turns`}
        onValue={(turns) => set({ ...stripe, turns }, `${path}.turns`)}
      />
    </>
  );
}
