/** Bytes written one after the other and read back; reading past the end answers null. */

export interface Writer {
  readonly byte: (value: number) => void;
  /** A whole number from 0 up to 2⁵³ − 1, seven bits a byte, the lowest first. */
  readonly whole: (value: number) => void;
  readonly bytes: (value: Uint8Array) => void;
  readonly float: (value: number) => void;
  readonly done: () => Uint8Array<ArrayBuffer>;
}

/**
 * Starts with nothing. A float takes 8 bytes (IEEE 754, binary64, the highest first); nothing is checked,
 * and of a byte beyond 255 only the lowest eight bits are kept.
 */
export function writer(): Writer {
  const out: number[] = [];
  const bytes = (value: Uint8Array) => {
    for (const it of value) out.push(it);
  };
  return {
    byte: (value) => out.push(value),
    whole: (value) => {
      let left = value;
      for (; left > 127; left = Math.floor(left / 128)) out.push((left % 128) + 128);
      out.push(left);
    },
    bytes,
    float: (value) => {
      const view = new DataView(new ArrayBuffer(8));
      view.setFloat64(0, value);
      bytes(new Uint8Array(view.buffer));
    },
    done: () => Uint8Array.from(out),
  };
}

/** Every read answers null once there is nothing left to read. */
export interface Reader {
  readonly byte: () => number | null;
  /** Null also beyond 2⁵³ − 1. */
  readonly whole: () => number | null;
  readonly bytes: (count: number) => Uint8Array | null;
  readonly float: () => number | null;
  readonly left: () => number;
}

/** Reads what `writer` wrote, from the first byte on; bytes are a view of `from`, not a copy. */
export function reader(from: Uint8Array): Reader {
  let at = 0;
  const bytes = (count: number) => {
    if (count > from.length - at) return null;
    at += count;
    return from.subarray(at - count, at);
  };
  const byte = () => bytes(1)?.[0] ?? null;
  return {
    byte,
    whole: () => readWhole(byte),
    bytes,
    float: () => {
      const it = bytes(8);
      return it === null ? null : new DataView(it.buffer, it.byteOffset, 8).getFloat64(0);
    },
    left: () => from.length - at,
  };
}

function readWhole(byte: () => number | null): number | null {
  let value = 0;
  for (let scale = 1; scale <= Number.MAX_SAFE_INTEGER; scale *= 128) {
    const it = byte();
    if (it === null) return null;
    value += (it % 128) * scale;
    if (it < 128) return Number.isSafeInteger(value) ? value : null;
  }
  return null;
}
