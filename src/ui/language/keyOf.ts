/**
 * The key of a message in a catalogue: short, so that no catalogue carries the English words too.
 * FNV-1a over the UTF-16 code units, in base 36. That no two messages share one is a test.
 */
export function keyOf(message: string): string {
  let hash = 0x811c9dc5;
  for (let at = 0; at < message.length; at++)
    hash = Math.imul(hash ^ message.charCodeAt(at), 0x01000193);
  return (hash >>> 0).toString(36);
}
