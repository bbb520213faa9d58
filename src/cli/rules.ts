/** `linewright rules`: what is judged, why, and what to do. */
import { rules as all } from '../../rules/index.js';
import type { ExitCode } from './exit-code.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { print } from './print.js';
import { ruleNamed, rulesList, ruleText } from './rules-report.js';

export async function rules({ id }: Typed): Promise<ExitCode> {
  const page = pageOn(process.stdout);
  print(id === undefined ? rulesList(all, page) : ruleText(ruleNamed(id as string, all), page));
  return 0;
}
