/** The SVG importer: bytes, text, tree, style, drawing. */
import { everyLine } from '../../../shared/artwork.js';
import type { Drawn, Importer, ReadOptions } from '../intake/importer.js';
import { Intake } from '../intake/intake.js';
import { isWebPage, startsWithTag } from '../intake/kind.js';
import { Pen } from '../intake/pen.js';
import { creditOf } from './credit.js';
import { Cuts } from './cut.js';
import { type Declaration, declarationsOf } from './declarations.js';
import { decode } from './decode.js';
import { knownIn, Walk } from './draw.js';
import { expandEntities } from './entities.js';
import { pageOf } from './page.js';
import type { Place } from './place.js';
import { ShapeArtist } from './shape-artist.js';
import { branchHiding, initialStyle, noContext, styleOf } from './style.js';
import { parseTransform } from './transform.js';
import { parseXml } from './xml.js';

export const svgImporter: Importer = {
  what: 'an SVG drawing',
  endings: ['.svg', '.svgz'],
  recognises: (bytes) => startsWithTag(bytes) && !isWebPage(bytes),
  read: readSvg,
};

const noRules: readonly Declaration[] = [];

async function readSvg(bytes: Uint8Array, file: string, options: ReadOptions): Promise<Drawn> {
  const { take, limits } = options;
  const text = expandEntities(decode(bytes, file), file, limits);
  const { root, byId, styles, withoutNamespace } = parseXml(text, file, limits);
  const matchRules =
    styles.length === 0 ? () => noRules : (await import('./stylesheet.js')).styleSheets(styles, file);

  const known = knownIn(byId);
  const declared = declarationsOf(root, matchRules(root));
  const fontSize = styleOf(declared, initialStyle, known).fontSize;
  const sides = {
    width: root.attributes.width ?? declared.width,
    height: root.attributes.height ?? declared.height,
  };
  const outer = parseTransform(declared.transform ?? '', { fontSize, width: 0, height: 0 });
  const page = pageOf({ ...root.attributes, ...sides }, fontSize, outer);
  const place: Place = {
    ctm: page.toMm,
    style: styleOf(declared, initialStyle, known),
    hiding: branchHiding(declared),
    width: page.width,
    height: page.height,
    depth: 1,
    copying: null,
    context: noContext,
    cuts: [],
    layers: [],
  };

  const intake = new Intake();
  if (withoutNamespace) intake.note('no-namespace', 'svg', null, root.line);
  const document = { file, limits, byId, matchRules };
  const cuts = new Cuts(document);
  const artist = new ShapeArtist(
    file,
    take,
    { ...everyLine, ...options },
    new Pen(limits, file),
    intake,
    cuts,
  );
  new Walk(document, artist, cuts).run(root, place);
  return {
    lines: artist.lines(),
    assumedSize: page.assumedSize,
    ...(page.assumedScale && { assumedScale: page.assumedScale }),
    statedSizeMm: page.statedSizeMm,
    credit: creditOf(root),
    notes: intake.notes(),
  };
}
