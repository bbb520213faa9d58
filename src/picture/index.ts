/** Pictures, as SVG text. */
export { mendPicture } from './mend-picture.js';
export { type MotifPictureOptions, motifPicture } from './motif-picture.js';
export { circleLegend, type RowsPictureOptions, rowsPicture } from './rows-picture.js';
