/** Pictures, as SVG text. */
export { mendPicture } from './mend-picture.js';
export { type MotifPictureOptions, motifPicture } from './motif-picture.js';
export {
  type RowsPictureOptions,
  type RowsShown,
  rowsLegend,
  rowsPicture,
  rowsToShow,
} from './rows-picture.js';
