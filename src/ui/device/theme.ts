/** Light, dark, high contrast or as the device has it; and what else of the settings is a matter of style. */
import { computed, effect, signal } from '@preact/signals';
import { settings } from '../state.ts';

const prefersDark = matchMedia('(prefers-color-scheme: dark)');
const prefersContrast = matchMedia('(prefers-contrast: more)');
const deviceDark = signal(prefersDark.matches);
const deviceContrast = signal(prefersContrast.matches);

/** Dark and high contrast are two things: high contrast is black on white, or the other way round. */
const isStark = computed(() => {
  const { theme } = settings.value;
  return theme === 'auto' ? deviceContrast.value : theme === 'contrast';
});

/** Whether the screen is dark now; canvases paint by it. */
export const isDark = computed(() => {
  const { theme } = settings.value;
  return theme === 'auto' || theme === 'contrast' ? deviceDark.value : theme === 'dark';
});

/** The page's ground, as the style sheet has it. */
export const ground = computed(() => {
  if (isStark.value) return isDark.value ? '#000000' : '#ffffff';
  return isDark.value ? '#191714' : '#f6f1e7';
});

export function followTheme(): void {
  const look = () => {
    deviceDark.value = prefersDark.matches;
    deviceContrast.value = prefersContrast.matches;
  };
  prefersDark.addEventListener('change', look);
  prefersContrast.addEventListener('change', look);
  effect(() => {
    const { distance, gloves } = settings.value;
    Object.assign(document.documentElement.dataset, {
      theme: isDark.value ? 'dark' : 'light',
      contrast: isStark.value ? 'more' : 'usual',
      distance,
      gloves,
    });
    for (const meta of document.querySelectorAll<HTMLMetaElement>('meta[name="theme-color"]')) {
      meta.content = ground.value;
    }
  });
}

const prefersStill = matchMedia('(prefers-reduced-motion: reduce)');
export const reducedMotion = () => prefersStill.matches;
