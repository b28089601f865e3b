/** Text made small where that pays and the browser can: gzip (RFC 1952), told by its first two bytes. */
import type { Bytes } from './house.ts';

/** Below this there is nothing to gain. */
const WORTH_IT = 2048;

/** UTF-8 bytes of the text, as gzip from 2048 on where the browser can; `unpacked` takes either. */
export async function packed(text: string): Promise<Bytes> {
  const plain = new TextEncoder().encode(text);
  if (plain.length < WORTH_IT || typeof CompressionStream === 'undefined') return plain;
  return through(plain, new CompressionStream('gzip'));
}

/** Rejects when the bytes are damaged, or when this browser cannot unpack them. */
export async function unpacked(bytes: Bytes): Promise<string> {
  const isPacked = bytes[0] === 0x1f && bytes[1] === 0x8b;
  const plain = isPacked ? await through(bytes, new DecompressionStream('gzip')) : bytes;
  return new TextDecoder().decode(plain);
}

async function through(
  bytes: Bytes,
  stream: CompressionStream | DecompressionStream,
): Promise<Bytes> {
  const flow = new Blob([bytes]).stream().pipeThrough(stream);
  return new Uint8Array(await new Response(flow).arrayBuffer());
}
