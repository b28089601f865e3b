import { showWarps } from '../../actions.ts';

export function YarnsScreen() {
  return (
    <main>
      <button type="button" class="button" onClick={() => void showWarps()}>
        ‹ Warps
      </button>
    </main>
  );
}
