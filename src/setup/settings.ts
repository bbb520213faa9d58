/**
 * The settings by the names that people give them, in `linewright.json` and on the command line alike: what each
 * one is, what values it takes, and which field of the Setup it fills.
 */
import type { Take } from '../../shared/artwork.js';
import { layouts } from '../../shared/layout.js';
import { Refusal } from '../../shared/refusal.js';
import type { LengthUnit, Setup } from '../../shared/setup.js';
import { parseLength } from '../../shared/units.js';
import { didYouMean, nearestOf } from './nearest.js';

export interface Setting {
  readonly field: keyof Setup;
  /** For the help text. */
  readonly about: string;
  /** What the command line calls it, where it can be given there. */
  readonly option?: string;
  /** The value in the Setup; `said` names the setting in a Refusal, as "--height" or "height". */
  parse(value: unknown, said: string, unit: LengthUnit): unknown;
}

const takes: readonly Take[] = ['auto', 'lines', 'shapes'];

export const settings = {
  unit: {
    field: 'unit',
    option: 'unit',
    about: 'unit of bare numbers, and shown first',
    parse: oneOf(['in', 'mm']),
  },
  height: {
    field: 'heightMm',
    option: 'height',
    about: 'working height, in proportion',
    parse: length(false),
  },
  width: { field: 'widthMm', option: 'width', about: 'working width, in proportion', parse: length(false) },
  take: {
    field: 'take',
    option: 'take',
    about: 'stroked lines only, painted shapes by their outline, or lines where there are any',
    parse: oneOf(takes),
  },
  layer: {
    field: 'layers',
    option: 'layer',
    about: 'only lines of this layer, by its name; may be given more than once',
    parse: names,
  },
  colour: {
    field: 'colours',
    option: 'colour',
    about: 'only lines of this colour, such as black or "#0072b2"; may be given more than once',
    parse: names,
  },
  skipDashed: {
    field: 'skipDashed',
    option: 'skip-dashed',
    about: 'leave dashed lines out',
    parse: yes,
  },
  dpi: {
    field: 'dpi',
    option: 'dpi',
    about: 'dots to the inch of a scan, before what its file states',
    parse: number(50, 4800),
  },
  ink: {
    field: 'ink',
    option: 'ink',
    about: 'of a scan: ink is what is darker than this share of the way from paper to ink, 50% if not given',
    parse: inkShare,
  },
  spi: { field: 'stitchesPerInch', option: 'spi', about: 'stitches per inch', parse: number(1, 100) },
  throat: { field: 'throatMm', option: 'throat', about: 'usable depth of the throat', parse: length(false) },
  clearance: {
    field: 'clearanceMm',
    option: 'clearance',
    about: 'least distance between the lines of neighbouring rows',
    parse: length(true),
  },
  batting: {
    field: 'battingMm',
    option: 'batting',
    about: 'largest open circle that the batting label allows',
    parse: length(false),
  },
  gap: {
    field: 'gapMm',
    option: 'gap',
    about: 'open circle wanted between rows of a motif without pockets, 1in if not given',
    parse: length(false),
  },
  spacing: { field: 'spacingMm', option: 'spacing', about: 'row spacing to judge', parse: length(false) },
  layout: { field: 'layout', option: 'layout', about: 'row layout', parse: oneOf(layouts) },
  flattenMm: { field: 'flattenMm', about: 'how far lines may leave their curves', parse: number(0.0001, 1) },
  joinToleranceMm: { field: 'joinToleranceMm', about: 'ends this near count as near', parse: number(0, 10) },
  linkWeight: {
    field: 'linkWeight',
    about: 'what new line that links weighs against line stitched twice',
    parse: number(1, 100),
  },
  smooth: {
    field: 'smoothMm',
    option: 'smooth',
    about: 'make a shaky line smooth within this distance, such as 0.5mm; with --reshape',
    parse: smoothing,
  },
  quiltThicknessMm: {
    field: 'quiltThicknessMm',
    about: 'thickness of the quilt as sewn',
    parse: number(0, 50),
  },
  roller: {
    field: 'rollerMm',
    option: 'roller',
    about: 'diameter of the empty take-up roller, 2 1/2in if not given',
    parse: length(false),
  },
  reserve: {
    field: 'reserveMm',
    option: 'reserve',
    about: 'depth of the throat kept free',
    parse: length(true),
  },
  margin: {
    field: 'marginMm',
    option: 'margin',
    about: 'how far the stitching goes past the top, 1in if not given',
    parse: length(true),
  },
  bobbin: { field: 'bobbinMm', option: 'bobbin', about: 'thread on a bobbin, such as 120yd', parse: thread },
  speed: { field: 'speed', option: 'speed', about: 'stitches a minute', parse: number(1, 100_000) },
  price: {
    field: 'price',
    option: 'price',
    about: 'price of a square inch of the top, with --unit mm of a square metre',
    parse: number(0, 1_000_000),
  },
  threadWastePercent: { field: 'threadWastePercent', about: 'added to the thread', parse: number(0, 500) },
} as const satisfies Readonly<Record<string, Setting>>;

export type SettingName = keyof typeof settings;
export const settingNames = Object.keys(settings) as SettingName[];

/** More than any spool holds. */
const longestThreadMm = 10_000_000;

function thread(value: unknown, said: string, unit: LengthUnit): number {
  if (typeof value !== 'string' && typeof value !== 'number')
    throw new Refusal(`${said} takes a length of thread such as "120yd" or "110m".`);
  const mm = parseLength(String(value), unit, said);
  if (mm > longestThreadMm || mm < 1000)
    throw new Refusal(`${said} cannot be ${value}: it takes a length of thread from 1 m to 10 km.`);
  return mm;
}

/** Longer than any quilt: a mistake in the unit, most likely. */
const longestMm = 100_000;

function length(mayBeZero: boolean): Setting['parse'] {
  return (value, said, unit) => {
    if (typeof value !== 'string' && typeof value !== 'number') {
      throw new Refusal(`${said} takes a length such as "9 1/2in" or "240mm".`);
    }
    const mm = parseLength(String(value), unit, said);
    if (mm > longestMm || !(mayBeZero ? mm >= 0 : mm > 0)) {
      throw new Refusal(
        `${said} cannot be ${value}: it takes a length ${mayBeZero ? 'from 0' : 'above 0'} to 100 m.`,
      );
    }
    return mm;
  };
}

/** A shake that a hand makes; what is wider is drawn so. */
const widestShakeMm = 5;

function smoothing(value: unknown, said: string, unit: LengthUnit): unknown {
  const mm = length(false)(value, said, unit);
  if (typeof mm === 'number' && mm >= 0.01 && mm <= widestShakeMm) return mm;
  throw new Refusal(`${said} takes a distance from 0.01mm to ${widestShakeMm}mm, not ${value}.`);
}

/** A share typed as a percentage, `40%` or 40. */
function inkShare(value: unknown, said: string): number {
  const percent =
    typeof value === 'number'
      ? value
      : Number(String(value).trim().replace(/\s*%$/, '').replace(',', '.') || Number.NaN);
  if (percent >= 5 && percent <= 95) return percent / 100;
  throw new Refusal(`${said} takes a percentage from 5 to 95 such as 40%, not "${String(value)}".`);
}

function number(least: number, most: number): Setting['parse'] {
  return (value, said) => {
    const read = typeof value === 'string' && value.trim() !== '' ? Number(value.replace(',', '.')) : value;
    if (typeof read !== 'number' || !(read >= least && read <= most)) {
      throw new Refusal(`${said} takes a number from ${least} to ${most}, not ${JSON.stringify(value)}.`);
    }
    return read;
  };
}

/** One name or a list of them. */
function names(value: unknown, said: string): readonly string[] {
  const list = Array.isArray(value) ? value : [value];
  if (list.every((name) => typeof name === 'string' && name.trim() !== '')) return list;
  throw new Refusal(`${said} takes a name, or a list of names.`);
}

function yes(value: unknown, said: string): boolean {
  if (typeof value === 'boolean') return value;
  throw new Refusal(`${said} takes true or false, not ${JSON.stringify(value)}.`);
}

function oneOf(values: readonly string[]): Setting['parse'] {
  return (value, said) => {
    if (typeof value === 'string' && values.includes(value)) return value;
    const choices = values.map((choice) => `"${choice}"`).join(', ');
    const hint = typeof value === 'string' ? meantOf(value, values) : '';
    throw new Refusal(`${said} takes one of ${choices}, not ${JSON.stringify(value)}.${hint}`);
  };
}

/** For "inch" it is "in"; but for "feet" nothing. */
function meantOf(value: string, values: readonly string[]): string {
  const begun = values.filter((each) => value.toLowerCase().startsWith(each));
  return nearestOf(value, begun) || didYouMean(value, values);
}
