/**
 * Pedals are keyboards: a press throws or undoes wherever the focus is. Only a control reached with
 * Tab keeps Enter, Space and arrows for itself, so that the screen works by keyboard too.
 */
// Names of keys are not for a reader.
const THROW = new Set(['PageDown', 'ArrowRight', 'ArrowDown', ' ', 'Enter']);
const UNDO = new Set(['PageUp', 'ArrowLeft', 'ArrowUp', 'Backspace']); // not for a reader

/** Keys the weaver taught; they go before those above. `again` is left to whoever says it again. */
export const learnt = new Map<string, 'throw' | 'undo' | 'again'>();

function stepOf(key: string): 'throw' | 'undo' | 'again' | null {
  return learnt.get(key) ?? (THROW.has(key) ? 'throw' : UNDO.has(key) ? 'undo' : null);
}

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
    // The name of a key is not for a reader.
    if (event.key === 'Tab') tabbed = true;
    if (!press.listening() || event.ctrlKey || event.altKey || event.metaKey) return;
    const step = stepOf(event.key);
    if (step === null || step === 'again') return;
    if (tabbed && ownsKeys(document.activeElement, event.key)) {
      // Browsers press a button again and again while Enter is held.
      if (event.repeat) event.preventDefault();
      return;
    }
    event.preventDefault();
    event.stopPropagation();
    taken.add(event.key);
    if (event.repeat) return;
    if (step === 'throw') press.onThrow(event.timeStamp);
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

/** Controls that Enter and Space press; not for a reader. */
const PRESSED = 'button, a[href], summary, input, select';

function ownsKeys(focused: Element | null, key: string): boolean {
  // Names of keys are not for a reader.
  return (key === ' ' || key === 'Enter') && focused !== null && focused.matches(PRESSED);
}
