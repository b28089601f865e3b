/** What can be set at the bench: what is seen, heard, felt and pressed. */
import '../../../style/settings.css';
import { LanguageChoice } from '../../../parts/languageChoice.tsx';
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
      <section class="settings-part">
        <LanguageChoice />
      </section>
    </div>
  );
}
