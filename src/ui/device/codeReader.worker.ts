/** Looks for a QR code in a picture, beside the page, so that nothing there stands still. */
import { decodeQR } from 'qr/decode.js';
import type { CodeAnswer, CodeQuestion } from './codeReader.ts';

interface WorkerScope {
  onmessage: ((event: MessageEvent<CodeQuestion>) => void) | null;
  readonly postMessage: (message: CodeAnswer) => void;
}
const here = globalThis as unknown as WorkerScope;

here.onmessage = ({ data: { image, patience } }) => {
  here.postMessage({ text: textIn(image, patience) });
};

function textIn(image: ImageData, patience: CodeQuestion['patience']): string | null {
  try {
    return decodeQR(image, PATIENCE[patience]);
  } catch {
    return null;
  }
}

/** The next frame of a camera comes at once; a photo is looked at as long as it takes. */
const PATIENCE = {
  frame: { effort: 16, timeLimit: 80 },
  photo: { effort: Number.POSITIVE_INFINITY, timeLimit: 3000 },
} as const;
