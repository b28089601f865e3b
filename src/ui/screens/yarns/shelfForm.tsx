/** The form in a sheet of the shelf: nothing is kept until it is saved, and only when all of it reads. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

export interface ShelfFormProps {
  readonly save: string;
  /** Called when every field reads. */
  readonly onSave: () => void;
  /** Gets whether saving was tried, so that what is missing is said then and not before. */
  readonly children: (tried: boolean) => ComponentChildren;
}

export function ShelfForm({ save, onSave, children }: ShelfFormProps) {
  const [tried, setTried] = useState(false);
  return (
    <form
      class="form shelf-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        const form = event.currentTarget;
        if (form.checkValidity()) onSave();
        else setTried(true);
        form.querySelector<HTMLElement>('input:invalid')?.focus();
      }}
    >
      {children(tried)}
      <button type="submit" class="button strong">
        {save}
      </button>
    </form>
  );
}
