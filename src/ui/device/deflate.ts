/** The browser's own compression (RFC 1951, no wrapper). Old browsers lack it: Safari before 16.4. */

export function canDeflate(): boolean {
  return typeof CompressionStream === 'function' && typeof DecompressionStream === 'function';
}

type Bytes = Uint8Array<ArrayBuffer>;

export async function deflate(bytes: Bytes): Promise<Bytes> {
  const out = await collected(bytes, new CompressionStream('deflate-raw'), Number.MAX_SAFE_INTEGER);
  if (out === null) throw new Error('deflate: got more bytes than memory holds');
  return out;
}

/** Null for what does not inflate, or to more than `most` bytes: then it stops without going on. */
export async function inflate(bytes: Bytes, most: number): Promise<Bytes | null> {
  try {
    return await collected(bytes, new DecompressionStream('deflate-raw'), most);
  } catch {
    return null;
  }
}

/** The stream hands out its bytes in small parts, so that no bomb is ever held whole. */
async function collected(
  bytes: Bytes,
  through: {
    readonly readable: ReadableStream<Bytes>;
    readonly writable: WritableStream<BufferSource>;
  },
  most: number,
): Promise<Bytes | null> {
  const writing = through.writable.getWriter();
  // What goes wrong with the input shows at the reading end.
  void writing.write(bytes).catch(() => undefined);
  void writing.close().catch(() => undefined);
  const reading = through.readable.getReader();
  const parts: Bytes[] = [];
  let length = 0;
  for (let part = await reading.read(); !part.done; part = await reading.read()) {
    length += part.value.length;
    if (length > most) {
      await reading.cancel();
      return null;
    }
    parts.push(part.value);
  }
  return joined(parts, length);
}

function joined(parts: readonly Bytes[], length: number): Bytes {
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
