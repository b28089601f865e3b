/** A motif that comes next on a warp: one event, which undo takes back. */
import { type Rest, weaveAgain } from '../core/bench/byEye/weaveAgain.ts';
import type { Block } from '../core/plan/plan.ts';
import { happen, turnTo, weave } from './actions.ts';
import { notice, screen, session } from './state.ts';

/** Weaves blocks next on a warp and goes to its bench; false where they cannot come next there. */
export async function weaveNext(
  warp: string,
  blocks: readonly Block[],
  rest: Rest,
  words: string,
): Promise<boolean> {
  if (session.peek()?.warp.id !== warp) await weave(warp);
  const now = session.peek();
  if (now?.warp.id !== warp) return false;
  const { course, pick } = now.progress;
  const revision = weaveAgain(course, pick, blocks, rest);
  if (revision === null) return false;
  happen({ kind: 'revised', from: revision.from, pieces: revision.pieces });
  if (screen.peek().kind !== 'weave') turnTo('weave');
  notice.value = words;
  return true;
}
