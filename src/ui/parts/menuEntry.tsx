/** One entry of a menu in a sheet: what it does, and a line about it. */
export interface MenuEntryProps {
  readonly title: string;
  readonly text: string;
  readonly onUse: () => void;
}

export function MenuEntry({ title, text, onUse }: MenuEntryProps) {
  return (
    <button type="button" class="button menu-button" onClick={onUse}>
      <strong>{title}</strong>
      <span>{text}</span>
    </button>
  );
}
