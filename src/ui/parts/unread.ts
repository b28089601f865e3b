/** Fields whose text does not read: what was typed is not in the plan, so it may not go on from here. */
import { signal } from '@preact/signals';
import { useId, useLayoutEffect } from 'preact/hooks';

const fields = signal<ReadonlySet<string>>(new Set());

export const hasUnread = () => fields.value.size > 0;

/** Tells whether this field reads, as long as it is on the screen. */
export function useUnread(isUnread: boolean): void {
  const id = useId();
  useLayoutEffect(() => {
    if (!isUnread) return;
    fields.value = new Set([...fields.peek(), id]);
    return () => {
      fields.value = new Set([...fields.peek()].filter((it) => it !== id));
    };
  }, [id, isUnread]);
}
