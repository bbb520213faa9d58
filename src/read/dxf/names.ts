/** What people call the kinds of entity. */
import type { DxfRecord } from './record.js';

/** Kinds that have a better name than their own in lower case; what they are for notes. */
const names: ReadonlyMap<string, string> = new Map([
  ['LWPOLYLINE', 'polyline'],
  ['POLYLINE', 'mesh'],
  ['MTEXT', 'text'],
  ['ATTRIB', 'text'],
  ['ATTDEF', 'text'],
  ['IMAGE', 'picture'],
  ['OLE2FRAME', 'picture'],
  ['OLEFRAME', 'picture'],
  ['HATCH', 'hatching'],
  ['MPOLYGON', 'hatching'],
  ['ARC_DIMENSION', 'dimension'],
  ['LARGE_RADIAL_DIMENSION', 'dimension'],
  ['MULTILEADER', 'leader'],
  ['XLINE', 'endless line'],
  ['RAY', 'endless line'],
  ['INSERT', 'block reference'],
]);

/** The kind of an entity in plain words. */
export function nameOf({ type }: DxfRecord): string {
  return names.get(type) ?? (type.slice(0, 40).toLowerCase() || 'entity without a kind');
}
