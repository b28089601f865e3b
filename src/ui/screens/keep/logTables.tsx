/** The log of one warp as a table for a spreadsheet. */

import { useEffect, useState } from 'preact/hooks';
import { now } from '../../actions.ts';
import { datedName } from '../../keeping/goingOut.ts';
import { type LoggedWarp, loggedWarps } from '../../keeping/loggedWarps.ts';
import { t } from '../../language/t.ts';
import { Field } from '../../parts/field.tsx';
import { FileOffer, fileName } from '../../parts/fileOffer.tsx';
import { logTable } from './logTable.ts';

export function LogTables() {
  const [warps, setWarps] = useState<readonly LoggedWarp[]>([]);
  const [chosen, setChosen] = useState('');
  useEffect(() => {
    void loggedWarps().then(setWarps);
  }, []);
  const warp = warps.find(({ id }) => id === chosen);
  if (warps.length === 0) return null;
  return (
    <section class="keep-part">
      <h2>{t('A log as a table')}</h2>
      <p class="lead">
        {t('One line for each thing that happened at the loom, for any spreadsheet (CSV).')}
      </p>
      <Field label={t('Warp')}>
        <select value={chosen} onChange={(event) => setChosen(event.currentTarget.value)}>
          <option value="">{t('Choose one')}</option>
          {warps.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </Field>
      {warp === undefined ? null : <Table key={warp.id} warp={warp} />}
    </section>
  );
}

function Table({ warp }: { readonly warp: LoggedWarp }) {
  const [file, setFile] = useState<File | null>(null);
  useEffect(() => {
    void warp.log().then((log) => setFile(tableFile(logTable(warp.plan, log), warp.name)));
  }, [warp]);
  return (
    <FileOffer
      what={t('The log of “{name}”', { name: warp.name })}
      name={t('the table')}
      file={file}
    />
  );
}

function tableFile(text: string, warp: string): File {
  const name = datedName(`log-${fileName(warp, 'warp')}`, now(), 'csv');
  return new File([text], name, { type: 'text/csv' });
}
