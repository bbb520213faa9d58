/** Pictures, as SVG text. */
export { type MotifPictureOptions, motifPicture } from './motif-picture.js';
