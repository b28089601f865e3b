/** A multiple of three, so that the pieces join without padding between them. */
const PIECE = 3 * 8192;

/** Base64 (RFC 4648) of bytes however many. */
export function base64Of(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += PIECE) {
    pieces.push(btoa(String.fromCharCode(...bytes.subarray(at, at + PIECE))));
  }
  return pieces.join('');
}
