/** Something seldom wanted, folded away; what unfolds comes into sight. */
import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';

export interface FoldProps {
  readonly words: string;
  readonly onOpen?: (isOpen: boolean) => void;
  readonly children: ComponentChildren;
}

export function Fold({ words, onOpen, children }: FoldProps) {
  const details = useRef<HTMLDetailsElement>(null);
  const [isOpen, setOpen] = useState(false);
  useLayoutEffect(() => {
    if (isOpen) details.current?.scrollIntoView({ block: 'nearest' });
  }, [isOpen]);
  return (
    <details
      ref={details}
      class="fold"
      onToggle={(event) => {
        setOpen(event.currentTarget.open);
        onOpen?.(event.currentTarget.open);
      }}
    >
      <summary>{words}</summary>
      {children}
    </details>
  );
}
