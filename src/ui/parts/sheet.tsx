/** A sheet over the screen: a native dialog, so that focus and Escape behave as everywhere. */

import type { ComponentChildren } from 'preact';
import { useId, useLayoutEffect, useRef } from 'preact/hooks';
import { t } from '../language/t.ts';

export interface SheetProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
  readonly wide?: true;
}

export function Sheet({ title, onClose, children, wide }: SheetProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  // Before the first paint: until it is open, pedals still throw.
  useLayoutEffect(() => {
    const it = dialog.current;
    if (it !== null && !it.open) it.showModal();
  }, []);
  return (
    <dialog
      ref={dialog}
      class={wide ? 'sheet sheet-wide' : 'sheet'}
      aria-labelledby={titleId}
      onClose={onClose}
    >
      <header class="sheet-head">
        <h2 id={titleId}>{title}</h2>
        <button type="button" class="button quiet" onClick={() => dialog.current?.close()}>
          {t('Close')}
        </button>
      </header>
      <div class="sheet-body">{children}</div>
    </dialog>
  );
}
