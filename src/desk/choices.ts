/**
 * What a person has chosen for one motif, as it was typed: everything the desk shows and saves is worked out from the
 * file and these, so that undoing is going back to the choices before.
 */
import { rules } from '../../rules/index.js';
import type { MendName } from '../../shared/finding.js';
import type { Runs } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import type { LengthUnit, Setup } from '../../shared/setup.js';
import { type SettingName, settings, setupFrom } from '../setup/index.js';
import type { HandChange } from '../tasks/changes.js';

export type Change =
  | { readonly by: 'mend'; readonly reshape: boolean; readonly only?: readonly MendName[] }
  | HandChange;

/** The settings that the desk asks for, each with what a sentence about it calls it. */
export const asked = {
  height: 'The height',
  width: 'The width',
  take: 'What to take',
  layer: 'The layer',
  colour: 'The colour',
  skipDashed: 'Dashed lines',
  dpi: 'Dots to the inch',
  ink: 'The ink',
  smooth: 'The smoothing',
  spi: 'Stitches per inch',
  throat: 'The throat',
  clearance: 'The clearance',
  batting: 'The batting',
  gap: 'The gap',
  layout: 'The layout',
  spacing: 'The row spacing',
  margin: 'The margin',
  roller: 'The roller',
  reserve: 'The depth kept free',
  bobbin: 'The bobbin',
  speed: 'The speed',
  price: 'The price',
} as const satisfies Partial<Record<SettingName, string>>;
export type Asked = keyof typeof asked;

export interface Choices {
  readonly unit: LengthUnit;
  /** Left out where nothing is typed. */
  readonly typed: Readonly<Partial<Record<Asked, string>>>;
  /** In the order in which they were made. */
  readonly changes: readonly Change[];
  /** Width and height of the top; empty while there is none. */
  readonly quilt: string;
  /** How far the motif's size may change to fit the quilt; the usual where nothing is typed. */
  readonly resize: string;
  readonly runs: Runs;
  /** Number of the plan's choice. */
  readonly choose: number;
  /** Where the stitching of the quilt was broken off; null where it was not. */
  readonly stopped: Stopped | null;
  /** The pass to be lined up after rolling on, and where the needle found its two places; null where none is. */
  readonly rolled: Rolled | null;
  readonly paper: OnPaper;
}

/** As typed; the usual where nothing is. */
export interface OnPaper {
  readonly sheet: string;
  readonly repeats: string;
  readonly rows: string;
  readonly overlap: string;
}

export interface Rolled {
  readonly pass: number;
  /** As typed: across; down. */
  readonly left: string;
  readonly right: string;
}

export interface Stopped {
  readonly pass: number;
  /** As typed: across; down. */
  readonly at: string;
  /** Which time the line came by there, from 1. */
  readonly which: number | null;
  readonly overlap: string;
}

export const noChoices: Choices = {
  unit: 'in',
  typed: {},
  changes: [],
  quilt: '',
  resize: '',
  runs: 'back-and-forth',
  choose: 1,
  stopped: null,
  rolled: null,
  paper: { sheet: '', repeats: '', rows: '', overlap: '' },
};

/** Everything that is typed is text, but for a box that is ticked. */
function settingOf(name: Asked, text: string): string | boolean {
  return name === 'skipDashed' ? text === 'yes' : text;
}

export interface SetupMade {
  readonly setup: Setup;
  /** What is wrong with what was typed, by field; such a field counts as empty. */
  readonly flaws: Readonly<Partial<Record<Asked, string>>>;
}

export function setupOf({ unit, typed }: Pick<Choices, 'unit' | 'typed'>): SetupMade {
  const flaws: Partial<Record<Asked, string>> = {};
  const sound: Record<string, unknown> = { unit };
  for (const [name, text] of Object.entries(typed) as [Asked, string][]) {
    // Of a session that says more than this page asks.
    if (!Object.hasOwn(asked, name)) continue;
    try {
      settings[name].parse(settingOf(name, text), asked[name], unit);
      sound[name] = settingOf(name, text);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      flaws[name] = error.message;
    }
  }
  if (sound.height !== undefined && sound.width !== undefined) {
    delete sound.width;
    flaws.width = 'A motif keeps its proportions: give its height or its width, not both.';
  }
  return { setup: setupFrom(sound, { rules }), flaws };
}
