// How the texts of a page look to whoever measures their contrast, to tell looks that were there before.
import type { Page } from 'playwright-core';

/** One line for each: its colour, and what of which class it stands in and on. */
interface Looks {
  readonly small: readonly string[];
  readonly large: readonly string[];
}

const SEEN = new WeakMap<Page, Seen>();

/** The looks this page has had, on all its screens. */
export function seenOn(page: Page): Seen {
  const seen = SEEN.get(page) ?? new Seen();
  SEEN.set(page, seen);
  return seen;
}

/** Looks that were there. */
export class Seen {
  readonly #small = new Set<string>();
  readonly #large = new Set<string>();

  /**
   * Whether a text on the page has a look that is not here yet; from now on it is. Two texts of one
   * look have one look in every theme, unless a rule of the page is about a size and a theme at once:
   * then every look is new. What is contrast enough for a small text is enough for a large one.
   */
  async isNewOn(page: Page): Promise<boolean> {
    const looks = await page.evaluate(looksHere);
    if (looks === null) return true;
    const isNew =
      looks.small.some((look) => !this.#small.has(look)) ||
      looks.large.some((look) => !this.#small.has(look) && !this.#large.has(look));
    for (const look of looks.small) this.#small.add(look);
    for (const look of looks.large) this.#large.add(look);
    return isNew;
  }
}

/** In the page. */
function looksHere(): Looks | null {
  const isAboutSize = /width|height|orientation|aspect-ratio/;
  const isAboutTheme = /prefers-(color-scheme|contrast)|data-theme|data-contrast/;
  const isMixed = (rules: CSSRuleList, around: string): boolean =>
    [...rules].some((rule) => {
      const own = rule as CSSRule & {
        readonly conditionText?: string;
        readonly selectorText?: string;
        readonly cssRules?: CSSRuleList;
      };
      const words = `${around} ${own.conditionText ?? ''}`;
      const isBoth = isAboutSize.test(words) && isAboutTheme.test(`${words} ${own.selectorText}`);
      const within = `${words} ${isAboutTheme.test(own.selectorText ?? '') ? 'data-theme' : ''}`;
      return isBoth || (own.cssRules !== undefined && isMixed(own.cssRules, within));
    });
  if ([...document.styleSheets].some((sheet) => isMixed(sheet.cssRules, ''))) return null;

  const lookOf = (it: Element) => {
    const { backgroundColor, backgroundImage, opacity } = getComputedStyle(it);
    const names = it
      .getAttributeNames()
      .filter((name) => /^(class|style|disabled|aria-|data-)/.test(name))
      .map((name) => `${name}=${it.getAttribute(name)}`);
    return [it.tagName, ...names, backgroundColor, backgroundImage, opacity].join(' ');
  };
  const known = new Map<Element, string>();
  const groundOf = (it: Element | null): string => {
    if (it === null) return '';
    const look = known.get(it) ?? `${groundOf(it.parentElement)} > ${lookOf(it)}`;
    known.set(it, look);
    return look;
  };
  const sheet = document.querySelector('dialog[open]');
  const isOpaque = (it: Element) => {
    const { backgroundColor, backgroundImage } = getComputedStyle(it);
    const isClear = backgroundColor === 'rgba(0, 0, 0, 0)' && backgroundImage === 'none';
    return !isClear || it.matches('canvas, img, svg, svg *');
  };
  /** What lies over or under it though it stands in none of it. What a sheet covers nobody reads. */
  const besides = (it: Element) => {
    if (sheet !== null && !sheet.contains(it)) return '';
    const { left, top, width, height } = it.getBoundingClientRect();
    return document
      .elementsFromPoint(left + width / 2, top + height / 2)
      .filter((other) => !other.contains(it) && !it.contains(other) && isOpaque(other))
      .map((other) => `${other.tagName}.${other.getAttribute('class') ?? ''}`)
      .join(' + ');
  };
  const hasText = (it: Element) =>
    it.matches('input, select, textarea') ||
    [...it.childNodes].some(
      (node) => node.nodeType === Node.TEXT_NODE && node.nodeValue?.trim() !== '',
    );
  const texts = [...document.body.querySelectorAll('*')].filter(
    (it) => hasText(it) && it.checkVisibility(),
  );
  const lookOfText = (it: Element) => {
    const { color, fill, fontSize, fontWeight, textShadow } = getComputedStyle(it);
    // From 18 pt on, or 14 pt in bold, less contrast is enough (WCAG 2.2, 1.4.6).
    const points = Number.parseFloat(fontSize) * 0.75;
    const isLarge = points >= 18 || (points >= 14 && Number(fontWeight) >= 700);
    const look = `${color} ${fill} ${textShadow} | ${groundOf(it)} | ${besides(it)}`;
    return { look, isLarge };
  };
  const looks = texts.map(lookOfText);
  const small = new Set(looks.flatMap(({ look, isLarge }) => (isLarge ? [] : [look])));
  const large = new Set(looks.flatMap(({ look, isLarge }) => (isLarge ? [look] : [])));
  return { small: [...small], large: [...large] };
}
