/** From defaults, `linewright.json` and command-line options, the later over the earlier, to a Setup. */
import { Refusal } from '../../shared/refusal.js';
import type { AnyRule } from '../../shared/rule.js';
import { defaultSetup, type LengthUnit, type Setup } from '../../shared/setup.js';
import { nearestOf } from './nearest.js';
import { limitSettings, requireObject, ruleSettings } from './rule-settings.js';
import { type Setting, settingNames, settings } from './settings.js';

export { didYouMean } from './nearest.js';
export { type Setting, type SettingName, settingNames, settings } from './settings.js';

/** A settings file as it was read: `json` is what stands in it. */
export interface SettingsFile {
  readonly file: string;
  readonly json: unknown;
}

/** Settings as typed, by option name; those left out are undefined. */
export type TypedOptions = Readonly<Record<string, unknown>>;

/** @throws Refusal naming a wrong key or value, and the nearest right one */
export function setupFrom(
  typed: TypedOptions,
  {
    settingsFile,
    rules,
  }: { readonly settingsFile?: SettingsFile | null; readonly rules: readonly AnyRule[] },
): Setup {
  const inFile = settingsFile ? requireObject(settingsFile.json, settingsFile.file) : {};
  const file = settingsFile?.file ?? '';
  requireKnown(inFile, file);
  const unit = settings.unit.parse(
    typed.unit ?? inFile.unit ?? defaultSetup.unit,
    said('unit', typed, file),
    'in',
  );
  const fromFile = fields(inFile, unit as LengthUnit, (name) => said(name, {}, file));
  const fromTyped = fields(typed, unit as LengthUnit, (name) => said(name, typed, file));
  requireOneSize(fromFile, `${file}: "height" and "width"`);
  requireOneSize(fromTyped, '--height and --width');
  // One of them typed settles the size, whichever the file had.
  const isSized = fromTyped.heightMm !== undefined || fromTyped.widthMm !== undefined;
  const unsized = isSized ? { heightMm: null, widthMm: null } : {};
  return {
    ...defaultSetup,
    ...fromFile,
    ...unsized,
    ...fromTyped,
    clearanceSaid: fromFile.clearanceMm !== undefined || fromTyped.clearanceMm !== undefined,
    ...('rules' in inFile && { rules: ruleSettings(inFile.rules, file, rules) }),
    ...('limits' in inFile && { limits: limitSettings(inFile.limits, file) }),
  };
}

function fields(values: TypedOptions, unit: LengthUnit, saidAs: (name: string) => string): Partial<Setup> {
  const found: Partial<Record<keyof Setup, unknown>> = {};
  for (const name of settingNames) {
    const { field, parse }: Setting = settings[name];
    if (values[name] !== undefined) found[field] = parse(values[name], saidAs(name), unit);
  }
  return found as Partial<Setup>;
}

function said(name: string, typed: TypedOptions, file: string): string {
  return typed[name] !== undefined
    ? `--${(settings as Record<string, Setting>)[name]?.option ?? name}`
    : `${file}: "${name}"`;
}

function requireKnown(inFile: TypedOptions, file: string): void {
  const right = [...settingNames, 'rules', 'limits'];
  for (const key of Object.keys(inFile)) {
    if (!right.includes(key))
      throw new Refusal(`${file}: there is no setting "${key}".${nearestOf(key, right)}`);
  }
}

function requireOneSize({ heightMm, widthMm }: Partial<Setup>, both: string): void {
  if (heightMm !== undefined && widthMm !== undefined) {
    throw new Refusal(
      `${both} cannot be set together: a motif keeps its proportions, so one of them gives the size.`,
    );
  }
}
