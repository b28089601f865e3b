/**
 * Pedals are keyboards: a press throws or undoes wherever the focus is. Only a control reached with
 * Tab keeps Enter, Space and arrows for itself, so that the screen works by keyboard too.
 */
const THROW = new Set(['PageDown', 'ArrowRight', 'ArrowDown', ' ', 'Enter']);
const UNDO = new Set(['PageUp', 'ArrowLeft', 'ArrowUp', 'Backspace']);

export interface PedalPress {
  readonly onThrow: (timeStamp: number) => void;
  readonly onUndo: () => void;
  /** False while a sheet is open: its own controls have the keys then. */
  readonly listening: () => boolean;
}

/** Listens until the returned function is called. */
export function listenToPedals(press: PedalPress): () => void {
  let tabbed = false;
  /** Keys that are down and were taken as a press: their going up belongs to nobody else. */
  const taken = new Set<string>();
  const onPointer = () => {
    tabbed = false;
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.key === 'Tab') tabbed = true;
    if (!press.listening() || event.ctrlKey || event.altKey || event.metaKey) return;
    const throws = THROW.has(event.key);
    if (!throws && !UNDO.has(event.key)) return;
    if (tabbed && ownsKeys(document.activeElement, event.key)) {
      // Browsers press a button again and again while Enter is held.
      if (event.repeat) event.preventDefault();
      return;
    }
    event.preventDefault();
    event.stopPropagation();
    taken.add(event.key);
    if (event.repeat) return;
    if (throws) press.onThrow(event.timeStamp);
    else press.onUndo();
  };
  const onKeyUp = (event: KeyboardEvent) => {
    // Chromium clicks a button that a finger has just touched when Space goes up, whatever was
    // done about its going down: the pick thrown would be undone at once.
    if (taken.delete(event.key)) event.preventDefault();
  };
  addEventListener('keydown', onKey, { capture: true });
  addEventListener('keyup', onKeyUp, { capture: true });
  addEventListener('pointerdown', onPointer, { capture: true });
  return () => {
    removeEventListener('keydown', onKey, { capture: true });
    removeEventListener('keyup', onKeyUp, { capture: true });
    removeEventListener('pointerdown', onPointer, { capture: true });
  };
}

function ownsKeys(focused: Element | null, key: string): boolean {
  return (
    (key === ' ' || key === 'Enter') &&
    focused !== null &&
    focused.matches('button, a[href], summary, input, select')
  );
}
