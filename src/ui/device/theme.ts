/** Light, dark or as the device has it, on the document and the browser's own bar. */
import { computed, effect, signal } from '@preact/signals';
import { settings } from '../state.ts';

const prefersDark = matchMedia('(prefers-color-scheme: dark)');
const deviceDark = signal(prefersDark.matches);

/** Whether the screen is dark now; canvases paint by it. */
export const isDark = computed(() => {
  const { theme } = settings.value;
  return theme === 'auto' ? deviceDark.value : theme === 'dark';
});

export function followTheme(): void {
  prefersDark.addEventListener('change', () => {
    deviceDark.value = prefersDark.matches;
  });
  effect(() => {
    document.documentElement.dataset.theme = isDark.value ? 'dark' : 'light';
    for (const meta of document.querySelectorAll<HTMLMetaElement>('meta[name="theme-color"]')) {
      meta.content = isDark.value ? '#1b1916' : '#f6f1e7';
    }
  });
}

export const reducedMotion = () => matchMedia('(prefers-reduced-motion: reduce)').matches;
