/** Conditional processing: SVG 2, 5.10. There is no reader's language to know here: English is taken. */
import type { SvgNode } from './node.js';

const language = 'en';

/** Whether an element's own conditions let it be drawn. */
export function isChosen({ attributes }: SvgNode): boolean {
  const { systemLanguage, requiredExtensions } = attributes;
  if (requiredExtensions !== undefined && requiredExtensions.trim() !== '') return false;
  if (systemLanguage === undefined) return true;
  return systemLanguage.split(',').some((tag) => tag.trim().toLowerCase().split('-')[0] === language);
}
