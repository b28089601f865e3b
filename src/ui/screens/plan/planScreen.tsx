import { showWarps } from '../../actions.ts';

export function PlanScreen() {
  return (
    <main>
      <button type="button" class="button" onClick={() => void showWarps()}>
        ‹ Warps
      </button>
    </main>
  );
}
