/** A plan into a link and back. Nothing is stored here. */
import { fail, ok, type Result } from '../core/measure/result.ts';
import { checkPlan } from '../core/plan/checkPlan.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { Problem } from '../core/plan/problems.ts';
import { type EnvelopeProblem, seal, unseal } from '../core/travel/envelope.ts';
import { LINK_LIMIT, linkFor, sealedIn, type TooLong } from '../core/travel/link.ts';
import { packValue, unpackValue } from '../core/travel/packed.ts';
import { canDeflate, deflate, inflate } from './device/deflate.ts';

/** `old-browser`: it cannot compress; plans travel by file then. */
export type LinkProblem = TooLong | { readonly code: 'old-browser' };

/** The link of a plan under an address of the app, such as `https://example.org/`. */
export async function planLink(plan: Plan, address: string): Promise<Result<string, LinkProblem>> {
  if (!canDeflate()) return fail({ code: 'old-browser' });
  const packed = packValue(plan);
  const deflated = await deflate(packed);
  const sealed = seal({ deflated, unpackedLength: packed.length });
  // Far too long in any case: the numbers need not be exact then.
  if (sealed === null) return fail({ code: 'too-long', got: deflated.length, most: LINK_LIMIT });
  return linkFor(address, sealed);
}

export type ArrivalProblem =
  | EnvelopeProblem
  | { readonly code: 'no-plan-in-it' }
  | { readonly code: 'broken' }
  | { readonly code: 'old-browser' }
  | { readonly code: 'not-a-plan'; readonly problems: readonly Problem[] };

/** The plan in a link, or in a text that holds one. Whatever is wrong, there is no plan then. */
export async function planFromLink(text: string): Promise<Result<Plan, ArrivalProblem>> {
  const sealed = sealedIn(text);
  if (sealed === null) return fail({ code: 'no-plan-in-it' });
  const whole = unseal(sealed);
  if (!whole.ok) return whole;
  if (!canDeflate()) return fail({ code: 'old-browser' });
  const { deflated, unpackedLength } = whole.value;
  const packed = await inflate(deflated, unpackedLength);
  if (packed === null || packed.length !== unpackedLength) return fail({ code: 'broken' });
  const value = unpackValue(packed);
  if (!value.ok) return fail({ code: 'broken' });
  const checked = checkPlan(value.value);
  return checked.ok ? ok(checked.value) : fail({ code: 'not-a-plan', problems: checked.problem });
}
