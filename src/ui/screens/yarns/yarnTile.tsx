/** One yarn of the shelf: its colour, how far it goes, what is left and what is planned of it. */
import { accountOf, type ShelfYarn, type YarnAccount } from '../../../core/plan/shelf.ts';
import { t } from '../../language/t.ts';
import { yardageWords, yarnKindWords } from '../../parts/yarnWords.ts';
import { yarnAccounts } from '../../shelf.ts';
import { settings } from '../../state.ts';
import { gaugeOf, leftWords, plannedWords, sinceWords } from './words.ts';

export interface YarnTileProps {
  readonly yarn: ShelfYarn;
  readonly onWeigh: () => void;
  readonly onChange: () => void;
}

export function YarnTile({ yarn, onWeigh, onChange }: YarnTileProps) {
  const account = yarnAccounts.value.get(yarn.id) ?? accountOf(yarn, []);
  return (
    <li class="shelf-tile">
      <span class="skein" style={{ backgroundColor: yarn.colour }} aria-hidden="true" />
      <div class="shelf-words">
        <h3>{yarn.name}</h3>
        <p>{yarnKindWords(yarn.count, yarn.fibre)}</p>
        <p class="hint">{yardageWords(yarn.count)}</p>
      </div>
      <Amounts yarn={yarn} account={account} />
      <div class="shelf-buttons">
        <button
          type="button"
          class="button"
          aria-label={t('Weigh {name}', { name: yarn.name })}
          onClick={onWeigh}
        >
          {t('Weigh')}
        </button>
        <button
          type="button"
          class="button quiet"
          aria-label={t('Change {name}', { name: yarn.name })}
          onClick={onChange}
        >
          {t('Change')}
        </button>
      </div>
    </li>
  );
}

interface AmountsProps {
  readonly yarn: ShelfYarn;
  readonly account: YarnAccount;
}

function Amounts({ yarn, account }: AmountsProps) {
  const { units } = settings.value;
  const since = sinceWords(account, units);
  const planned = plannedWords(account, units);
  return (
    <div class="shelf-amounts">
      <p class="shelf-left">{leftWords(yarn, account, units)}</p>
      {since === null ? null : <p class="hint">{since}</p>}
      {planned === null ? null : (
        <>
          <Bar account={account} colour={yarn.colour} />
          <p class="hint">{planned.wanted}</p>
          {planned.outcome === null ? null : (
            <p class="shelf-outcome" data-short={planned.short}>
              {planned.outcome}
            </p>
          )}
        </>
      )}
    </div>
  );
}

function Bar({ account, colour }: { readonly account: YarnAccount; readonly colour: string }) {
  const gauge = gaugeOf(account);
  if (gauge === null) return null;
  return (
    <div class="gauge" aria-hidden="true">
      <span class="gauge-planned" style={{ width: gauge.planned, backgroundColor: colour }} />
      <span class="gauge-spare" style={{ width: gauge.spare, backgroundColor: colour }} />
      <span class="gauge-missing" style={{ width: gauge.missing }} />
    </div>
  );
}
