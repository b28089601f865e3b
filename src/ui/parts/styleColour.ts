/** A colour of the style sheet, such as `--ink`: canvases take theirs from where everything else does. */
export function styleColour(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}
