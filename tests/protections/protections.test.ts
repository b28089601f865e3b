/** Every protection is taken out of the app once: a test of the suite has to see it. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { OF_FILES_AND_LINKS } from './ofFilesAndLinks.ts';
import { OF_THE_SCREENS } from './ofTheScreens.ts';
import { OF_THE_STORE } from './ofTheStore.ts';
import { openTrial, type Trial } from './withoutProtection.ts';

let trial: Trial;

beforeAll(async () => {
  trial = await openTrial();
}, 120_000);
afterAll(() => trial.close());

describe('without this a test fails:', () => {
  for (const protection of [...OF_THE_STORE, ...OF_FILES_AND_LINKS, ...OF_THE_SCREENS]) {
    it(protection.title, async () => {
      const { failed, ...rest } = await trial.verdict(protection);
      expect(rest).toEqual({ isLoaded: true, ran: expect.any(Number), otherwise: [] });
      expect(failed).not.toEqual([]);
    }, 180_000);
  }
});
