/** What is good to know before the first loop: what it takes, and the odd places to come. */
import type { Plan } from '../../../core/plan/plan.ts';
import type { Mend, OddPlace } from '../../../core/plan/warping/list.ts';
import { count, length } from '../../format.ts';
import { SwatchOf } from './stepCall.tsx';
import { nameIn, range, type Work } from './words.ts';

export function Before({ work }: { readonly work: Work }) {
  const { list, plan } = work;
  const { floating } = list;
  const long = (mm: number) => length(mm, plan.units, 'long');
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section class="before" aria-labelledby="before-title" tabIndex={0}>
      <div>
        <h2 id="before-title">
          {list.method === 'direct'
            ? `${count(list.loops, 'loop')}, ${count(list.ends, 'end')}, peg at ${long(list.pegDistance)}`
            : `${count(list.ends, 'end')} of ${long(list.pegDistance)}`}
        </h2>
        <ul class="takes">
          {list.yarns.map(({ yarn, ends, loops, length: mm }) => (
            <li key={yarn}>
              <SwatchOf plan={plan} letter={yarn} />
              <span>
                {nameIn(plan, yarn)}: {list.method === 'direct' ? `${count(loops, 'loop')}, ` : ''}
                {count(ends, 'end')}, {long(mm)}
              </span>
            </li>
          ))}
          {floating === null ? null : (
            <li>
              <SwatchOf plan={plan} letter={floating.yarn} />
              <span>
                {nameIn(plan, floating.yarn)}: 2 floating selvedges apart, {long(floating.length)}
              </span>
            </li>
          )}
        </ul>
      </div>
      {list.method === 'direct' ? <OddPlaces work={work} /> : null}
    </section>
  );
}

function OddPlaces({ work }: { readonly work: Work }) {
  const { oddPlaces } = work.list;
  if (oddPlaces.length === 0) {
    return <p class="hint">No odd places: every loop is of one colour and stays in its slot.</p>;
  }
  return (
    <div>
      <h3>{count(oddPlaces.length, 'odd place')}</h3>
      <ul class="odd-places">
        {oddPlaces.map((place) => (
          <li key={`${place.kind} ${place.from}`}>
            <strong>{range('Slot', place.from, place.to)}: </strong>
            {oddWords(work.plan, place)}
          </li>
        ))}
      </ul>
    </div>
  );
}

function oddWords(plan: Plan, place: OddPlace): string {
  switch (place.kind) {
    case 'swap': {
      const [a, b] = place.yarns.map((yarn) => nameIn(plan, yarn));
      return `${a} and ${b} go in unmixed; neighbours swap an end when the holes are threaded.`;
    }
    case 'tie': {
      const [a, b] = place.yarns.map((yarn) => nameIn(plan, yarn));
      return `half ${a}, half ${b}: cut and tie at the peg.${mendWords(plan, place.mend)}`;
    }
    case 'single':
      return `one end of ${nameIn(plan, place.yarn)} by itself.`;
  }
}

function mendWords(plan: Plan, mend: Mend | null): string {
  if (mend === null) return '';
  const [a, b] = mend;
  return ` Or plan ${a.becomes} ${nameIn(plan, a.yarn)} and ${b.becomes} ${nameIn(plan, b.yarn)} here instead of ${a.ends} and ${b.ends}.`;
}
