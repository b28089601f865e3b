/** A QR code, black on white in every theme, with the quiet margin its readers need. */
import { encode } from 'uqr';
import { Canvas } from '../canvas.tsx';
import type { Box } from '../useBox.ts';

/** Modules left white all round (ISO/IEC 18004). */
const QUIET = 4;

export function QrCode({ text, label }: { readonly text: string; readonly label: string }) {
  const { data, size } = encode(text, { ecc: 'L', boostEcc: true, border: QUIET });
  const paint = (ctx: CanvasRenderingContext2D, { width, height, dpr }: Box) => {
    // Whole device pixels a module: a row that is sometimes four, sometimes five is hard to read.
    const module = Math.max(1, Math.floor((Math.min(width, height) * dpr) / size)) / dpr;
    const [left, top] = [width, height].map(
      (room) => Math.floor(((room - size * module) / 2) * dpr) / dpr,
    );
    ctx.fillStyle = '#ffffff';
    ctx.fillRect(0, 0, width, height);
    ctx.fillStyle = '#000000';
    for (const [row, modules] of data.entries()) {
      for (const [column, dark] of modules.entries()) {
        if (!dark) continue;
        ctx.fillRect((left ?? 0) + column * module, (top ?? 0) + row * module, module, module);
      }
    }
  };
  return <Canvas class="qr" label={label} paint={paint} />;
}
