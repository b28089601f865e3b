/** What is good to know before the first loop: what it takes, and the odd places to come. */

import type { Plan } from '../../../core/plan/plan.ts';
import type { Mend, OddPlace } from '../../../core/plan/warping/list.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { SwatchOf } from './stepCall.tsx';
import { nameIn, numbersOf, type Work } from './stepWords.ts';

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
            ? t(
                '{loops, plural, one {# loop} other {# loops}}, {ends, plural, one {# end} other {# ends}}, peg at {length}',
                { loops: list.loops, ends: list.ends, length: long(list.pegDistance) },
              )
            : t('{n, plural, one {# end} other {# ends}} of {length}', {
                n: list.ends,
                length: long(list.pegDistance),
              })}
        </h2>
        <ul class="takes">
          {list.yarns.map(({ yarn, ends, loops, length: mm }) => (
            <li key={yarn}>
              <SwatchOf plan={plan} letter={yarn} />
              <span>
                {list.method === 'direct'
                  ? t(
                      '{yarn}: {loops, plural, one {# loop} other {# loops}}, {ends, plural, one {# end} other {# ends}}, {length}',
                      { yarn: nameIn(plan, yarn), loops, ends, length: long(mm) },
                    )
                  : t('{yarn}: {ends, plural, one {# end} other {# ends}}, {length}', {
                      yarn: nameIn(plan, yarn),
                      ends,
                      length: long(mm),
                    })}
              </span>
            </li>
          ))}
          {floating === null ? null : (
            <li>
              <SwatchOf plan={plan} letter={floating.yarn} />
              <span>
                {t('{yarn}: 2 floating selvedges apart, {length}', {
                  yarn: nameIn(plan, floating.yarn),
                  length: long(floating.length),
                })}
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
    return (
      <p class="hint">{t('No odd places: every loop is of one colour and stays in its slot.')}</p>
    );
  }
  return (
    <div>
      <h3>{t('{n, plural, one {# odd place} other {# odd places}}', { n: oddPlaces.length })}</h3>
      <ul class="odd-places">
        {oddPlaces.map((place) => (
          <li key={`${place.kind} ${place.from}`}>
            <strong>
              {t('{n, plural, one {Slot {to}} other {Slots {from}–{to}}}:', numbersOf(place))}
            </strong>{' '}
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
      return t('{a} and {b} go in unmixed; neighbours swap an end when the holes are threaded.', {
        a: a ?? '',
        b: b ?? '',
      });
    }
    case 'tie': {
      const [a, b] = place.yarns.map((yarn) => nameIn(plan, yarn));
      const words = t('half {a}, half {b}: cut and tie at the peg.', { a: a ?? '', b: b ?? '' });
      return place.mend === null ? words : `${words} ${mendWords(plan, place.mend)}`;
    }
    case 'single':
      return t('one end of {yarn} by itself.', { yarn: nameIn(plan, place.yarn) });
  }
}

function mendWords(plan: Plan, [a, b]: Mend): string {
  return t('Or plan {a} {yarnA} and {b} {yarnB} here instead of {endsA} and {endsB}.', {
    a: a.becomes,
    yarnA: nameIn(plan, a.yarn),
    b: b.becomes,
    yarnB: nameIn(plan, b.yarn),
    endsA: a.ends,
    endsB: b.ends,
  });
}
