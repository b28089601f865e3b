/** Colours to begin with, such as plants, earths and undyed fibres give. */
import type { Hex } from '../../core/measure/colour.ts';

export interface NamedColour {
  readonly name: string;
  readonly hex: Hex;
}

export const PALETTE: readonly NamedColour[] = [
  { name: 'Bleached linen', hex: '#f5f0e6' },
  { name: 'Raw fleece', hex: '#e6d9c0' },
  { name: 'Oat husk', hex: '#cdb68c' },
  { name: 'Barley straw', hex: '#e2c56f' },
  { name: 'Weld', hex: '#d6b62f' },
  { name: 'Marigold', hex: '#dc9526' },
  { name: 'Onion skin', hex: '#bb7531' },
  { name: 'Iron rust', hex: '#9c4f2c' },
  { name: 'Madder', hex: '#a3362a' },
  { name: 'Rose hip', hex: '#c75b49' },
  { name: 'Faded rose', hex: '#d69c92' },
  { name: 'Cochineal', hex: '#8b2247' },
  { name: 'Plum skin', hex: '#572c4b' },
  { name: 'Elderberry', hex: '#433658' },
  { name: 'Heather ash', hex: '#988ca8' },
  { name: 'Young woad', hex: '#8fb0c0' },
  { name: 'Woad', hex: '#5c86a3' },
  { name: 'Indigo', hex: '#2d4a73' },
  { name: 'Deep vat', hex: '#1b2740' },
  { name: 'Copper bloom', hex: '#5d9787' },
  { name: 'Fir', hex: '#2c4939' },
  { name: 'Moss', hex: '#5d7043' },
  { name: 'Nettle', hex: '#8d9c5a' },
  { name: 'Walnut hull', hex: '#59402c' },
  { name: 'Peat', hex: '#302722' },
  { name: 'Dove', hex: '#b9b4aa' },
  { name: 'Flint', hex: '#6c6e6e' },
  { name: 'Soot', hex: '#1b1a19' },
];

/** The palette's name for a colour, or its figures where it has none. */
export function colourName(hex: Hex): string {
  return PALETTE.find((it) => it.hex === hex)?.name ?? hex;
}
