/** Reads QR codes, in a worker that is fetched with the first picture and ended by `close`. */

export interface CodeQuestion {
  readonly image: ImageData;
  readonly patience: 'frame' | 'photo';
}

export interface CodeAnswer {
  /** Null when no code was found in the picture. */
  readonly text: string | null;
}

export interface CodeReader {
  /** One picture at a time; `failed` when the worker cannot run. */
  readonly read: (question: CodeQuestion) => Promise<CodeAnswer | 'failed'>;
  readonly close: () => void;
}

export function openCodeReader(): CodeReader {
  // The path is not for a reader.
  const worker = new Worker(new URL('./codeReader.worker.ts', import.meta.url), { type: 'module' });
  const read = (question: CodeQuestion) =>
    new Promise<CodeAnswer | 'failed'>((resolve) => {
      worker.onmessage = ({ data }: MessageEvent<CodeAnswer>) => resolve(data);
      worker.onerror = () => resolve('failed');
      worker.postMessage(question, [question.image.data.buffer]);
    });
  return { read, close: () => worker.terminate() };
}
