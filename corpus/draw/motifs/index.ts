import { anchorChain } from './anchor-chain.js';
import { breakers } from './breakers.js';
import { crates } from './crates.js';
import { gullWing } from './gull-wing.js';
import { hawser } from './hawser.js';
import { herring } from './herring.js';
import { kelp } from './kelp.js';
import { lighthouse } from './lighthouse.js';
import type { MotifDrawing } from './motif-drawing.js';
import { musselBed } from './mussel-bed.js';
import { net } from './net.js';
import { pebbleBeach } from './pebble-beach.js';
import { ripples } from './ripples.js';
import { ropeCoil } from './rope-coil.js';
import { sail } from './sail.js';
import { swell } from './swell.js';
import { tideLines } from './tide-lines.js';

export const motifs: readonly MotifDrawing[] = [
  anchorChain,
  breakers,
  crates,
  gullWing,
  hawser,
  herring,
  kelp,
  lighthouse,
  musselBed,
  net,
  pebbleBeach,
  ripples,
  ropeCoil,
  sail,
  swell,
  tideLines,
];
