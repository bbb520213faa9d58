/** Sentences of the rules name what is typed on the command line; here they name the places of the page. */
const said: readonly (readonly [RegExp, string])[] = [
  [/\b([Ll])et linewright mend (?:--reshape )?/g, '$1et \u201cPut it right\u201d below '],
  [/linewright mend(?: --reshape)?/g, '\u201cPut it right\u201d below'],
  [/with --height or --width/g, 'under \u201cSize\u201d below'],
  [/with --height/g, 'under \u201cSize\u201d below'],
  [/shorter stitches \(--spi\)/g, 'shorter stitches'],
  [/--skip-dashed/g, '\u201cLeave dashed lines out\u201d below'],
  [/--layer ("[^"]*")/g, '\u201cOnly the layer\u201d $1 below'],
  [/--colour ("[^"]*")/g, '\u201cOnly the colour\u201d $1 below'],
  [/--take (shapes|lines)/g, '\u201cTake\u201d $1 below'],
  [/with --gap/g, 'under \u201cOpen gap wanted\u201d'],
];

export function onPage(sentence: string): string {
  return said.reduce((text, [from, to]) => text.replace(from, to), sentence);
}
