/** The link a plan travels by: the app's own address with the plan in its fragment, which no server sees. */
import { fail, ok, type Result } from '../measure/result.ts';

/** Signs of the whole link: what messages and mail still carry in one piece (ours). */
export const LINK_LIMIT = 1_800;
/** Bytes of one QR code: version 27 of 40 at its lowest correction, fine enough for a screen (ours). */
export const QR_LIMIT = 1_400;

export interface TooLong {
  readonly code: 'too-long';
  /** Signs. */
  readonly got: number;
  readonly most: number;
}

/** `https://…/` and a sealed plan → the link; too long for a message, it is refused with the numbers. */
export function linkFor(address: string, sealed: string): Result<string, TooLong> {
  const link = `${address}#plan=${sealed}`;
  if (link.length > LINK_LIMIT)
    return fail({ code: 'too-long', got: link.length, most: LINK_LIMIT });
  return ok(link);
}

/**
 * The sealed plan in a link, wherever the app that made it lives, also with words around the link.
 * Null when the text is no link with a plan.
 *
 * @example sealedIn('https://example.org/#plan=AbC') // 'AbC'
 */
export function sealedIn(text: string): string | null {
  return /#plan=(\S*)/.exec(text)?.[1] ?? null;
}
