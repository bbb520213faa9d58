/** Specificity of selectors: Selectors Level 4, section 17. */
import type { CssNode, Selector } from 'css-tree';

/** Ids; classes, attributes and pseudo-classes; types and pseudo-elements. */
export type Specificity = readonly [ids: number, classes: number, types: number];

/** Negative where `a` gives way to `b`, positive where it wins, 0 where the later one does. */
export function weaker(a: Specificity, b: Specificity): number {
  return a[0] - b[0] || a[1] - b[1] || a[2] - b[2];
}

export function specificityOf(selector: Selector): Specificity {
  let sum: Specificity = [0, 0, 0];
  for (const part of selector.children) {
    const one = ofPart(part);
    sum = [sum[0] + one[0], sum[1] + one[1], sum[2] + one[2]];
  }
  return sum;
}

function ofPart(part: CssNode): Specificity {
  switch (part.type) {
    case 'IdSelector':
      return [1, 0, 0];
    case 'ClassSelector':
    case 'AttributeSelector':
      return [0, 1, 0];
    case 'TypeSelector':
      return part.name === '*' ? [0, 0, 0] : [0, 0, 1];
    case 'PseudoElementSelector':
      return [0, 0, 1];
    case 'PseudoClassSelector':
      return ofPseudoClass(part.name.toLowerCase(), part.children?.toArray() ?? []);
    default:
      return [0, 0, 0];
  }
}

/** `:not` and `:is` weigh as much as the heaviest of their arguments, `:where` nothing. */
function ofPseudoClass(name: string, args: readonly CssNode[]): Specificity {
  if (name === 'where') return [0, 0, 0];
  if (name !== 'not' && name !== 'is' && name !== 'has') return [0, 1, 0];
  let heaviest: Specificity = [0, 0, 0];
  for (const list of args) {
    if (list.type !== 'SelectorList') continue;
    for (const selector of list.children) {
      const one = selector.type === 'Selector' ? specificityOf(selector) : heaviest;
      if (weaker(heaviest, one) < 0) heaviest = one;
    }
  }
  return heaviest;
}
