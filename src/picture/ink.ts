/** Colours and sizes of the pictures. Colours: M. Okabe and K. Ito, Color Universal Design (2008). */
import type { Severity } from '../../shared/finding.js';

/** The stitched line. */
export const ink = '#222222';
export const paper = '#ffffff';

export const okabeIto = {
  orange: '#E69F00',
  skyBlue: '#56B4E9',
  green: '#009E73',
  blue: '#0072B2',
  vermilion: '#D55E00',
  purple: '#CC79A7',
} as const;

export const startColour = okabeIto.green;
export const endColour = okabeIto.blue;

export const flagColour: Readonly<Record<Severity, string>> = {
  error: okabeIto.vermilion,
  warning: okabeIto.orange,
  info: okabeIto.skyBlue,
};
