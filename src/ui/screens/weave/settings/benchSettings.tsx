/** What can be set at the bench: what is seen, heard, felt and pressed. */
import '../../../style/settings.css';
import { HandsPart } from './handsPart.tsx';
import { HearingPart } from './hearingPart.tsx';
import { PedalsPart } from './pedalsPart.tsx';
import { SightPart } from './sightPart.tsx';

export function BenchSettings() {
  return (
    <div class="settings">
      <SightPart />
      <HandsPart />
      <HearingPart />
      <PedalsPart />
    </div>
  );
}
