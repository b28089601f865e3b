/** Motifs: their shelf, the cloth they are chosen from, and planned against woven. */
import { lazily } from '../../parts/lazily.tsx';
import { screen } from '../../state.ts';
import { MotifShelf } from './motifShelf.tsx';

const StretchScreen = lazily(
  async () => (await import('../stretch/stretchScreen.tsx')).StretchScreen,
);
const AgainstScreen = lazily(
  async () => (await import('../against/againstScreen.tsx')).AgainstScreen,
);

export function MotifsScreen() {
  const at = screen.value;
  if (at.kind !== 'motifs') return null;
  switch (at.page.kind) {
    case 'shelf':
      return <MotifShelf key="shelf" back={at.back} />;
    case 'stretch':
      return <StretchScreen key="stretch" first={at.page.piece} back={at.back} />;
    case 'against':
      return <AgainstScreen key="against" first={at.page.piece} back={at.back} />;
  }
}
