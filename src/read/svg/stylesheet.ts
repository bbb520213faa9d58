/**
 * Style sheets: `css-tree` reads them, `css-select` says which elements a selector means. Loaded only for files that
 * have a style element. Nothing is fetched: `@import` counts for nothing. Of `@media` rules those for screens hold.
 *
 * Rules wait in a drawer under the id, class or type their last part names, so an element is tried against few.
 * Hostile selectors can still walk the tree over and over (`g g g g g path`): steps are counted and bounded.
 */
import { compile, type Options } from 'css-select';
import { type CssNode, generate, type Rule, type Selector, parse as syntaxTree } from 'css-tree';
import { Refusal } from '../../../shared/refusal.js';
import { type Declaration, parseDeclarations } from './declarations.js';
import { type SvgNode, textOf } from './node.js';
import { type Specificity, specificityOf, weaker } from './specificity.js';

const maxSteps = 100_000_000;
/** Rough costs, in steps up or along the tree, of trying a rule and of using one. */
const stepsATry = 5;
const stepsAMatch = 15;

/** Counts work done; throws a Refusal where it has become too much. */
type Step = (count: number) => void;

/** The style sheets' declarations for an element, weakest first. */
export type MatchRules = (node: SvgNode) => readonly Declaration[];

interface StyleRule {
  readonly matches: (node: SvgNode) => boolean;
  readonly specificity: Specificity;
  readonly order: number;
  readonly declarations: readonly Declaration[];
}

/** The rules of all `styles` elements, in the order of the file. */
export function styleSheets(styles: readonly SvgNode[], file: string): MatchRules {
  let steps = 0;
  const step = (count: number) => {
    steps += count;
    if (steps > maxSteps) throw new Refusal(`${file}: its style rules take too long to work out.`);
  };
  const options = selectOptions(step);
  const drawers = new Map<string, StyleRule[]>();
  let order = 0;
  for (const element of styles) {
    if (
      !/^(?:text\/css)?$/i.test(element.attributes.type?.trim() ?? '') ||
      !isForScreen(element.attributes.media)
    )
      continue;
    for (const { block, prelude } of rulesIn(element, file)) {
      const declarations = parseDeclarations(generate(block).slice(1, -1));
      if (declarations.length === 0 || prelude.type !== 'SelectorList') continue;
      for (const selector of prelude.children) {
        if (selector.type !== 'Selector') continue;
        const matches = compiled(selector, options);
        if (!matches) continue;
        const rule = { matches, specificity: specificityOf(selector), order: order++, declarations };
        const key = drawerOf(selector);
        const drawer = drawers.get(key);
        if (drawer) drawer.push(rule);
        else drawers.set(key, [rule]);
      }
    }
  }
  return (node) => matching(node, drawers, step);
}

function isForScreen(media: string | undefined): boolean {
  return media === undefined || media.trim() === '' || /(?:^|,)\s*(?:only\s+)?(?:all|screen)\b/i.test(media);
}

/** The style rules of one sheet that hold, those inside `@media` too. */
function rulesIn(element: SvgNode, file: string): Rule[] {
  const rules: Rule[] = [];
  const collect = (node: CssNode) => {
    if (node.type === 'StyleSheet' || node.type === 'Block') node.children.forEach(collect);
    else if (node.type === 'Rule') rules.push(node);
    else if (node.type === 'Atrule' && node.block && holds(node.name, node.prelude)) collect(node.block);
  };
  try {
    collect(syntaxTree(textOf(element), { parseValue: false }));
  } catch (error) {
    // Brackets nested thousands deep exhaust the parser's stack; nothing else makes it throw.
    if (!(error instanceof RangeError)) throw error;
    throw new Refusal(
      `${file}, line ${element.line}: the brackets of this style element are nested too deep.`,
    );
  }
  return rules;
}

function holds(name: string, prelude: CssNode | null): boolean {
  return name.toLowerCase() === 'media' && isForScreen(prelude ? generate(prelude) : undefined);
}

/** The selector as a test, or null where it is none that can mean an element (`::before`, prefixed names). */
function compiled(
  selector: Selector,
  options: Options<SvgNode, SvgNode>,
): ((node: SvgNode) => boolean) | null {
  try {
    return compile<SvgNode, SvgNode>(generate(selector), options);
  } catch {
    return null;
  }
}

/** `#id`, `.class` or `type` of the last part, or `*` where it names none. */
function drawerOf(selector: Selector): string {
  let [id, name, type] = ['', '', ''];
  for (const part of selector.children) {
    if (part.type === 'Combinator') [id, name, type] = ['', '', ''];
    else if (part.type === 'IdSelector') id = `#${part.name}`;
    else if (part.type === 'ClassSelector') name = `.${part.name}`;
    else if (part.type === 'TypeSelector' && part.name !== '*') type = part.name;
  }
  return id || name || type || '*';
}

function matching(
  node: SvgNode,
  drawers: ReadonlyMap<string, readonly StyleRule[]>,
  step: Step,
): readonly Declaration[] {
  const { id, class: classes } = node.attributes;
  const found: StyleRule[] = [];
  const search = (key: string) => {
    const drawer = drawers.get(key);
    if (!drawer) return;
    step(stepsATry * drawer.length);
    for (const rule of drawer) if (rule.matches(node)) found.push(rule);
  };
  search('*');
  search(node.name);
  if (id !== undefined) search(`#${id}`);
  if (classes !== undefined) for (const name of new Set(classes.split(/\s+/))) search(`.${name}`);
  step(stepsAMatch * found.length);
  found.sort((a, b) => weaker(a.specificity, b.specificity) || a.order - b.order);
  return found.flatMap((rule) => rule.declarations);
}

function selectOptions(step: Step): Options<SvgNode, SvgNode> {
  const siblings = (node: SvgNode) => node.parent?.children ?? [node];
  return {
    xmlMode: true,
    adapter: {
      isTag: (node): node is SvgNode => node.type === 'element',
      getAttributeValue: (node, name) =>
        Object.hasOwn(node.attributes, name) ? node.attributes[name] : undefined,
      hasAttrib: (node, name) => Object.hasOwn(node.attributes, name),
      getName: (node) => node.name,
      getChildren: (node) => {
        step(node.children.length);
        return node.children;
      },
      getParent: (node) => {
        step(1);
        return node.parent;
      },
      getSiblings: (node) => {
        const all = siblings(node);
        step(all.length);
        return all;
      },
      getText: (node) => {
        const text = textOf(node);
        step(text.length + 1);
        return text;
      },
      removeSubsets: (nodes) => nodes,
    },
  };
}
