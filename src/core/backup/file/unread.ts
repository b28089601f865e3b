/** What of a state this version cannot read. It is kept all the same; whoever brings it in is told. */
import { decodePhoto } from '../../journal/photo.ts';
import { decodeLearntWarp } from '../../learn/learntWarp.ts';
import { checkPlan } from '../../plan/checkPlan.ts';
import { isDraft } from '../../plan/draftShape.ts';
import { decodeMotif } from '../../plan/motif.ts';
import type { Problem } from '../../plan/problems.ts';
import { decodeShelfHeddle, decodeShelfYarn } from '../../plan/shelf.ts';
import type { Contents, RecordCopy } from '../contents.ts';

/** The first fault of each plan and record that cannot be read, with its place. */
export function unreadIn({ warps, records }: Contents): readonly Problem[] {
  return [
    ...warps.flatMap(({ plans }, w) =>
      plans.flatMap(({ plan }, p) => firstAt(checkPlan(plan), `warps[${w}].plans[${p}].plan`)),
    ),
    ...records.flatMap((record, r) => unreadRecord(record, `records[${r}].body`)),
  ];
}

function unreadRecord({ kind, body }: RecordCopy, path: string): readonly Problem[] {
  switch (kind) {
    case 'yarn':
      return firstAt(decodeShelfYarn(body), path);
    case 'heddle':
      return firstAt(decodeShelfHeddle(body), path);
    case 'learnt':
      return firstAt(decodeLearntWarp(body), path);
    case 'photo':
      return firstAt(decodePhoto(body), path);
    case 'motif':
      return firstAt(decodeMotif(body), path);
    case 'draft':
      return isDraft(body) ? [] : [{ path, code: 'wrong-type', right: 'draft' }];
    default:
      return [];
  }
}

type Read = { readonly ok: true } | { readonly ok: false; readonly problem: readonly Problem[] };

function firstAt(read: Read, path: string): readonly Problem[] {
  const first = read.ok ? undefined : read.problem[0];
  if (first === undefined) return [];
  return [{ ...first, path: first.path === '' ? path : `${path}.${first.path}` }];
}
