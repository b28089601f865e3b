/** Measuring the fell: from the start of the piece or from a pin, under tension or eased. */
import { useState } from 'preact/hooks';
import { doubtAbout, pinPlaces } from '../../../core/bench/asking.ts';
import type { ReadFrom } from '../../../core/bench/events.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import type { Mm, Units } from '../../../core/measure/length.ts';
import { changeSettings } from '../../actions.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { takeReading } from '../../measuring.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthPad } from '../../parts/lengthPad.tsx';
import { type Session, settings } from '../../state.ts';
import '../../style/measure.css';
import { readsBetween } from './measureWords.ts';
import { ReadingList } from './readingList.tsx';

interface FormProps {
  readonly now: Session;
  readonly onClose: () => void;
}

export function MeasureForm({ now, onClose }: FormProps) {
  const { progress, plan } = now;
  const [from, setFrom] = useState<string>('start');
  const [mm, setMm] = useState<Mm | null>(null);
  const [asked, setAsked] = useState(false);
  const { tension } = settings.value;
  const reading = { mm: mm ?? 0, from: readFrom(from), tension };
  const doubt = doubtAbout(progress, { ...reading, reading: '' });
  const take = () => {
    takeReading(reading);
    onClose();
  };
  if (progress.pick === 0) {
    return <p>{t('There is no cloth to measure yet: throw a few picks first.')}</p>;
  }
  return (
    <div class="form measuring">
      <div class="measure-how">
        <FromChoice progress={progress} units={plan.units} from={from} onFrom={setFrom} />
        <Choice
          label={t('The warp is')}
          word="tension"
          chosen={tension}
          onChoose={(it) => changeSettings({ tension: it })}
          options={[
            { value: 'tight', words: t('Under tension') },
            { value: 'eased', words: t('Eased') },
          ]}
        />
        <p class="measure-expect">{readsBetween(doubt.expected, plan.units)}</p>
      </div>
      <LengthPad
        units={plan.units}
        onLength={(it) => {
          setMm(it);
          setAsked(false);
        }}
      />
      {asked && mm !== null ? (
        <Question mm={mm} expected={doubt.expected.mm} units={plan.units} onTake={take} />
      ) : (
        <button
          type="button"
          class="button strong"
          disabled={mm === null}
          onClick={() => (doubt.doubtful === 'absurd' ? setAsked(true) : take())}
        >
          {t('Take this reading')}
        </button>
      )}
      <ReadingList progress={progress} units={plan.units} />
    </div>
  );
}

function readFrom(from: string): ReadFrom {
  return from === 'start' ? { kind: 'start' } : { kind: 'pin', pin: from };
}

interface FromProps {
  readonly progress: Progress;
  readonly units: Units;
  readonly from: string;
  readonly onFrom: (from: string) => void;
}

/** The start of the piece, and the pins last put in. */
function FromChoice({ progress, units, from, onFrom }: FromProps) {
  const pins = pinPlaces(progress)
    .filter((it) => it.pin !== '')
    .slice(0, MOST_PINS);
  const options = [
    { value: 'start', words: t('The start of the piece') },
    ...pins.map(({ pin, number, loomLength }) => ({
      value: pin,
      words: t('Pin {number}, at {length}', { number, length: length(loomLength, units) }),
    })),
  ];
  return <Choice label={t('Measured from')} chosen={from} onChoose={onFrom} options={options} />;
}

/** Pins further back have long wound out of sight. */
const MOST_PINS = 3;

interface QuestionProps {
  readonly mm: Mm;
  readonly expected: Mm;
  readonly units: Units;
  readonly onTake: () => void;
}

/** A reading that can hardly be is asked about, never refused. */
function Question({ mm, expected, units, onTake }: QuestionProps) {
  return (
    <div class="measure-question" role="alert">
      <p>
        <strong>
          {t('{length} is far from what was counted.', { length: length(mm, units) })}
        </strong>{' '}
        {t(
          'The ruler should show about {length}. Was it measured from there? Type it anew, or take it as it is.',
          { length: length(expected, units) },
        )}
      </p>
      <button type="button" class="button strong" onClick={onTake}>
        {t('Take {length} all the same', { length: length(mm, units) })}
      </button>
    </div>
  );
}
