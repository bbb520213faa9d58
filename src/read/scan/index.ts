/** The scan importer: a picture of a pen drawing to the line the pen drew; what reads it is loaded when there is one. */
import type { Importer } from '../intake/importer.js';
import { isJpeg, isPng } from './kinds.js';

export const scanImporter: Importer = {
  what: 'a PNG or JPEG picture',
  endings: ['.png', '.jpg', '.jpeg'],
  onlyWhenNamed: true,
  recognises: (bytes) => isPng(bytes) || isJpeg(bytes),
  read: async (bytes, file, options) => (await import('./read.js')).readScan(bytes, file, options),
};
