// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { NOTHING } from '../../../../src/core/backup/contents.ts';
import type { Incoming } from '../../../../src/ui/keeping/comingIn.ts';
import { ReplaceAll } from '../../../../src/ui/screens/keep/replaceAll.tsx';

const incoming: Incoming = {
  source: { kind: 'file', name: 'backup.json' },
  backup: { madeAt: '2026-11-28T10:00:00.000Z', app: '0.1.0', ...NOTHING },
  rows: [],
  records: [],
  unread: [],
  left: [],
};

afterEach(cleanup);

it.each([
  ['', true],
  ['rep', true],
  ['replace all', true],
  ['yes', true],
  ['replace', false],
  [' Replace ', false],
])('with %j typed, everything can be replaced only if that is the word', (typed, isRefused) => {
  render(<ReplaceAll incoming={incoming} />);
  fireEvent.input(screen.getByRole('textbox'), { target: { value: typed } });
  const button = screen.getByRole('button', { name: 'Replace everything' });
  expect((button as HTMLButtonElement).disabled).toBe(isRefused);
});
