import { expect, it } from 'vitest';
import { unreadIn } from '../../../../src/core/backup/file/unread.ts';
import { BASE } from '../../plan/samples.ts';
import { picksOf, stateOf, timeAt, warpOf } from '../states.ts';

const plan = (revision: number, it: unknown) => ({ revision, madeAt: timeAt(0), plan: it });
const record = (kind: string, body: unknown) => ({ kind, id: 'x', changedAt: timeAt(0), body });

it('what this version reads is all in order', () => {
  const yarn = {
    id: 'y',
    name: 'Moss',
    colour: '#5d7043',
    count: BASE.yarns[0]?.count,
    weighed: [],
  };
  const heddle = { id: 'h', name: '12½', dents: BASE.loom.dents, width: 600 };
  const records = [
    record('yarn', yarn),
    record('heddle', heddle),
    record('draft', BASE),
    record('later', 7),
  ];
  expect(unreadIn(stateOf([warpOf('w', picksOf('p', 2))], { records }))).toEqual([]);
});

it('what it cannot read is named with its place, the first fault of each', () => {
  const plans = [
    plan(0, BASE),
    plan(1, { ...BASE, version: 9 }),
    plan(2, { ...BASE, units: 'ells', yarns: [] }),
  ];
  const records = [record('yarn', { name: 3 }), record('heddle', null), record('draft', [])];
  const found = unreadIn(stateOf([warpOf('v', []), warpOf('w', [], { plans })], { records }));
  expect(found.map(({ path, code }) => `${path} ${code}`)).toEqual([
    'warps[1].plans[1].plan.version newer-version',
    'warps[1].plans[2].plan.units not-one-of',
    'records[0].body.id missing',
    'records[1].body wrong-type',
    'records[2].body wrong-type',
  ]);
});
