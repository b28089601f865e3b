/**
 * The rescue page: everything stored for this origin into one file, parsing nothing of it. It stands
 * alone: it imports only what lies beside it, so it works when the app does not.
 */
import './rescue.css';
import { collect } from './collect.ts';
import { speak, words } from './words.ts';

function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`got a page without #${id}`);
  return found;
}

function line(text: string): HTMLLIElement {
  const item = document.createElement('li');
  item.textContent = text;
  return item;
}

function save(file: File): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

async function run(): Promise<void> {
  const { parts, found, troubles } = await collect();
  const name = `fellmark-rescue-${new Date().toISOString().slice(0, 10)}.json`;
  const file = new File(parts, name, { type: 'application/json' });
  element('found').replaceChildren(...[...found, ...troubles].map(line));
  element('state').textContent =
    troubles.length === 0
      ? words.whole(Math.ceil(file.size / 1000))
      : words.partly(Math.ceil(file.size / 1000));
  const button = element('save') as HTMLButtonElement;
  button.disabled = false;
  button.onclick = () => save(file);
  const share = element('share') as HTMLButtonElement;
  share.hidden = !(navigator.canShare?.({ files: [file] }) ?? false);
  share.onclick = () => void navigator.share({ files: [file] }).catch(() => undefined);
}

speak();
run().catch((error: unknown) => {
  element('state').textContent = words.failed(error);
});
