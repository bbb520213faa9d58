import type { AnyRule } from '../shared/rule.js';
import brokenPath from './broken-path.js';
import crowdedLines from './crowded-lines.js';
import fitsThroat from './fits-throat.js';
import hiddenArtwork from './hidden-artwork.js';
import levelEnds from './level-ends.js';
import nearGap from './near-gap.js';
import noNamespace from './no-namespace.js';
import oneStroke from './one-stroke.js';
import openArea from './open-area.js';
import oppositeEdges from './opposite-edges.js';
import outlinedLine from './outlined-line.js';
import physicalSize from './physical-size.js';
import plausibleSize from './plausible-size.js';
import repeatCollision from './repeat-collision.js';
import repeatedLine from './repeated-line.js';
import rowCollision from './row-collision.js';
import rowNesting from './row-nesting.js';
import runsLeftToRight from './runs-left-to-right.js';
import sharpTurn from './sharp-turn.js';
import shortSteps from './short-steps.js';
import smoothJoin from './smooth-join.js';
import strayArtwork from './stray-artwork.js';
import threadPile from './thread-pile.js';
import tightCurve from './tight-curve.js';
import tracedLine from './traced-line.js';

/**
 * Every rule, in the order in which findings of one weight are told: the file, the line, its ends, the stitches,
 * the rows, the size.
 */
export const rules: readonly AnyRule[] = [
  physicalSize,
  noNamespace,
  strayArtwork,
  hiddenArtwork,
  brokenPath,
  tracedLine,
  outlinedLine,
  oneStroke,
  nearGap,
  repeatedLine,
  oppositeEdges,
  levelEnds,
  runsLeftToRight,
  smoothJoin,
  repeatCollision,
  tightCurve,
  sharpTurn,
  crowdedLines,
  threadPile,
  shortSteps,
  rowNesting,
  rowCollision,
  openArea,
  fitsThroat,
  plausibleSize,
];
