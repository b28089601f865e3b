/** Colours to begin with, such as plants, earths and undyed fibres give. */
import type { Hex } from '../../core/measure/colour.ts';
import { t } from '../language/t.ts';

export interface NamedColour {
  readonly name: string;
  readonly hex: Hex;
}

export const PALETTE: readonly NamedColour[] = [
  { name: t('Bleached linen'), hex: '#f5f0e6' },
  { name: t('Raw fleece'), hex: '#e6d9c0' },
  { name: t('Oat husk'), hex: '#cdb68c' },
  { name: t('Barley straw'), hex: '#e2c56f' },
  { name: t('Weld'), hex: '#d6b62f' },
  { name: t('Marigold'), hex: '#dc9526' },
  { name: t('Onion skin'), hex: '#bb7531' },
  { name: t('Iron rust'), hex: '#9c4f2c' },
  { name: t('Madder'), hex: '#a3362a' },
  { name: t('Rose hip'), hex: '#c75b49' },
  { name: t('Faded rose'), hex: '#d69c92' },
  { name: t('Cochineal'), hex: '#8b2247' },
  { name: t('Plum skin'), hex: '#572c4b' },
  { name: t('Elderberry'), hex: '#433658' },
  { name: t('Heather ash'), hex: '#988ca8' },
  { name: t('Young woad'), hex: '#8fb0c0' },
  { name: t('Woad'), hex: '#5c86a3' },
  { name: t('Indigo'), hex: '#2d4a73' },
  { name: t('Deep vat'), hex: '#1b2740' },
  { name: t('Copper bloom'), hex: '#5d9787' },
  { name: t('Fir'), hex: '#2c4939' },
  { name: t('Moss'), hex: '#5d7043' },
  { name: t('Nettle'), hex: '#8d9c5a' },
  { name: t('Walnut hull'), hex: '#59402c' },
  { name: t('Peat'), hex: '#302722' },
  { name: t('Dove'), hex: '#b9b4aa' },
  { name: t('Flint'), hex: '#6c6e6e' },
  { name: t('Soot'), hex: '#1b1a19' },
];

/** The palette's name for a colour, or its figures where it has none. */
export function colourName(hex: Hex): string {
  return PALETTE.find((it) => it.hex === hex)?.name ?? hex;
}
