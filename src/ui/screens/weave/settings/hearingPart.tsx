/** Sound, voice, vibration, and how early a change is told. */
import type { Signal } from '../../../../core/bench/hearing/calls.ts';
import { MOST_AHEAD, RATES, type Senses, VOLUMES } from '../../../../core/bench/hearing/senses.ts';
import { playSounds, wakeSound } from '../../../device/sound.ts';
import { canVibrate, vibrate } from '../../../device/vibration.ts';
import { speak, speaksForeign, unlockVoice, voices } from '../../../device/voice.ts';
import { inOurNumbers } from '../../../format.ts';
import { t } from '../../../language/t.ts';
import { Choice } from '../../../parts/choice.tsx';
import { Stepper } from '../../../parts/stepper.tsx';
import { changeSenses, senses } from '../../../senses.ts';

export function HearingPart() {
  const now = senses.value;
  if (now === null) return null;
  return (
    <section class="settings-part" aria-label={t('Hearing')}>
      <h3>{t('Hearing')}</h3>
      <SoundFields now={now} />
      <VoiceFields now={now} />
      <Choice
        label={t('Vibration')}
        chosen={now.vibration}
        onChoose={setVibration}
        options={[
          { value: 'off', words: t('Off') },
          { value: 'on', words: t('On') },
        ]}
      />
      {canVibrate ? null : <p class="hint">{t('This device cannot vibrate.')}</p>}
      <Stepper
        label={t('Picks ahead at which a change is told')}
        value={now.ahead}
        least={0}
        most={MOST_AHEAD}
        onChange={(ahead) => changeSenses({ ahead })}
      />
      {now.ahead === 0 ? <p class="hint">{t('Nothing is told ahead.')}</p> : null}
    </section>
  );
}

interface FieldsProps {
  readonly now: Senses;
}

function SoundFields({ now }: FieldsProps) {
  return (
    <>
      <Choice
        label={t('Sounds')}
        chosen={now.sound}
        onChoose={(sound) => {
          changeSenses({ sound });
          if (sound !== 'off') hearIt(['now']);
        }}
        options={[
          { value: 'off', words: t('Off') },
          { value: 'picks', words: t('Every pick') },
          { value: 'changes', words: t('Changes only') },
        ]}
      />
      {now.sound === 'off' ? null : (
        <>
          <Stepper
            label={t('Volume')}
            value={now.volume}
            {...VOLUMES}
            onChange={(volume) => {
              changeSenses({ volume });
              hearIt(['coming']);
            }}
          />
          <div class="row">
            {SAMPLES.map(({ signal, words }) => (
              <button type="button" class="button" key={signal} onClick={() => hearIt([signal])}>
                ♪ {words}
              </button>
            ))}
          </div>
        </>
      )}
    </>
  );
}

const SAMPLES: readonly { readonly signal: Signal; readonly words: string }[] = [
  { signal: 'pick', words: t('pick') },
  { signal: 'back', words: t('taken back') },
  { signal: 'coming', words: t('change coming') },
  { signal: 'now', words: t('change now') },
  { signal: 'due', words: t('due') },
];

/** Inside a tap, so that it is allowed to sound. */
function hearIt(signals: readonly Signal[]): void {
  wakeSound(performance.now());
  playSounds(signals, senses.peek()?.volume ?? 1);
}

function setVibration(vibration: 'off' | 'on'): void {
  changeSenses({ vibration });
  if (vibration === 'on') vibrate(['now']);
}

function VoiceFields({ now }: FieldsProps) {
  const set = (change: Partial<Senses>) => {
    changeSenses(change);
    tryVoice();
  };
  return (
    <>
      <Choice
        label={t('Voice')}
        chosen={now.voice}
        onChoose={(voice) => set({ voice })}
        options={[
          { value: 'off', words: t('Off') },
          { value: 'on', words: t('Calls the turns') },
        ]}
      />
      {now.voice === 'off' ? null : <VoiceChoices now={now} set={set} />}
    </>
  );
}

interface VoiceChoicesProps extends FieldsProps {
  readonly set: (change: Partial<Senses>) => void;
}

function VoiceChoices({ now, set }: VoiceChoicesProps) {
  const known = voices.value;
  if (known.length === 0) return <p class="hint">{NO_VOICE}</p>;
  return (
    <>
      {speaksForeign.value ? <p class="hint">{FOREIGN_VOICE}</p> : null}
      {known.length === 1 ? null : (
        <Choice
          label={t('Which voice')}
          chosen={known.some((it) => it.name === now.voiceName) ? now.voiceName : ''}
          onChoose={(voiceName) => set({ voiceName })}
          options={[
            { value: '', words: t('The device’s own') },
            ...known.map(({ name }) => ({ value: name, words: name })),
          ]}
        />
      )}
      <Choice
        label={t('How fast')}
        chosen={now.rate}
        onChoose={(rate) => set({ rate })}
        options={RATES.map((rate) => ({ value: rate, words: `${inOurNumbers(String(rate))} ×` }))}
      />
      <p class="hint">{t('Tap the call at the bench to hear it again.')}</p>
    </>
  );
}

const NO_VOICE = t(
  'This device has no voice that works without a network. Its settings may offer one to install, under speech or accessibility. Until then a sound is played where words would be said.',
);

const FOREIGN_VOICE = t(
  'No voice of this device speaks this language. Its settings may offer one to install, under speech or accessibility.',
);

function tryVoice(): void {
  const now = senses.peek();
  if (now === null || now.voice === 'off') return;
  wakeSound(performance.now());
  unlockVoice();
  const onSilence = () => playSounds(['now'], now.volume);
  speak({ text: t('2 of moss, from the left.'), mustBeHeard: '', ...now, onSilence });
}
