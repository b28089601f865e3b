/** The camera looking for a code. Nothing is recorded, and the camera is off as soon as this is gone. */

import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { type CameraTrouble, closeCamera, frameOf, openCamera } from '../../device/camera.ts';
import { openCodeReader } from '../../device/codeReader.ts';
import { t } from '../../language/t.ts';

export interface ScanCameraProps {
  /** Called for every code seen, again and again as long as it is in sight. */
  readonly onText: (text: string) => void;
}

type State = 'off' | 'asking' | 'looking' | CameraTrouble | 'no-reader';

export function ScanCamera({ onText }: ScanCameraProps) {
  const video = useRef<HTMLVideoElement>(null);
  // Which start this is: the camera is asked for again at each; null where it was stopped.
  const [start, setStart] = useState<number | null>(1);
  const [state, setState] = useState<State>('asking');
  useCamera(video, start, setState, onText);
  const isLive = state === 'looking';
  return (
    <section class="scan-eye" aria-label={t('The camera')}>
      <video
        ref={video}
        muted
        playsInline
        data-live={isLive}
        aria-label={t('What the camera sees')}
      />
      <p role="status">{WORDS[state]}</p>
      <button
        type="button"
        class="button"
        disabled={state === 'asking'}
        onClick={() => {
          setState(isLive ? 'off' : 'asking');
          setStart(isLive ? null : (start ?? 0) + 1);
        }}
      >
        {isLive ? t('Stop the camera') : t('Start the camera')}
      </button>
    </section>
  );
}

const WORDS: Record<State, string> = {
  off: t('The camera is off.'),
  asking: t('Waiting for the camera …'),
  looking: t('Hold the code in the frame, as large as it will go.'),
  refused: t(
    'The camera was refused. Allow it for this page in the browser’s settings, then start it again. A photo of the code works without.',
  ),
  none: t('There is no camera on this device. Take a photo of the code, or paste the link.'),
  busy: t('Another app is using the camera. Close it there, then start it again.'),
  missing: t(
    'This browser gives no camera to this page: it needs a secure address (https). A photo of the code works without.',
  ),
  unknown: t('The camera did not start. A photo of the code works without.'),
  'no-reader': t('The reader of codes could not be loaded. Reload the page, or paste the link.'),
};

/** Pictures are looked at no faster than this: more would only warm the tablet. */
const PAUSE_MS = 120;
/** CSS px: a code of 125 modules still has eight of them each. */
const FRAME = 1080;

function useCamera(
  video: RefObject<HTMLVideoElement | null>,
  start: number | null,
  onState: (state: State) => void,
  onText: (text: string) => void,
): void {
  const latest = useRef(onText);
  latest.current = onText;
  useEffect(() => {
    const it = video.current;
    if (start === null || it === null) return;
    let isOver = false;
    let end: (() => void) | null = null;
    void openCamera().then((opened) => {
      if (!opened.ok) {
        if (!isOver) onState(opened.problem);
        return;
      }
      if (isOver) closeCamera(opened.value);
      else end = look(it, opened.value, (text) => latest.current(text), onState);
    });
    return () => {
      isOver = true;
      end?.();
    };
  }, [start]);
}

/** Looks until the answer is called. A tablet takes the camera away from a page that is not seen. */
function look(
  video: HTMLVideoElement,
  stream: MediaStream,
  onText: (text: string) => void,
  onState: (state: State) => void,
): () => void {
  const reader = openCodeReader();
  const canvas = document.createElement('canvas');
  let timer = 0;
  let isOver = false;
  const next = async () => {
    const image = frameOf(video, canvas, FRAME);
    const answer =
      image === null ? { text: null } : await reader.read({ image, patience: 'frame' });
    if (isOver) return;
    if (answer === 'failed') {
      end();
      onState('no-reader');
      return;
    }
    if (answer.text !== null) onText(answer.text);
    timer = window.setTimeout(() => void next(), PAUSE_MS);
  };
  const end = () => {
    isOver = true;
    clearTimeout(timer);
    closeCamera(stream);
    reader.close();
    video.srcObject = null;
  };
  video.srcObject = stream;
  void video.play().catch(() => undefined);
  stream.getVideoTracks()[0]?.addEventListener('ended', () => {
    if (isOver) return;
    end();
    onState('off');
  });
  onState('looking');
  void next();
  return end;
}
