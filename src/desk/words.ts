/**
 * Sentences of the core name what is to be done as it is called on the command line: a command, an option. The page has a
 * step for each command and a field for each option, and calls them by their headings.
 */
const steps: Readonly<Record<string, string>> = {
  check: 'See how it will stitch',
  mend: 'Put it right',
  rows: 'Set the rows',
  plan: 'Plan the quilt',
  resume: 'Go on after a break',
  align: 'Line a pass up after rolling on',
  convert: 'Take it along',
  sheet: 'Take it along',
  paper: 'The pattern on paper',
};

/** By option. */
export const fieldNames: Readonly<Record<string, string>> = {
  height: 'Height',
  width: 'Width',
  take: 'Take',
  layer: 'Only the layer',
  colour: 'Only the colour',
  'skip-dashed': 'Leave dashed lines out',
  dpi: 'Dots to the inch',
  ink: 'Ink from',
  smooth: 'Make a shaky line smooth within',
  spi: 'Stitches per inch',
  throat: 'Throat',
  clearance: 'Clearance',
  batting: 'Batting allows',
  gap: 'Open gap wanted',
  spacing: 'Row spacing',
  layout: 'Layout',
  margin: 'Margin',
  roller: 'Roller',
  reserve: 'Kept free',
  bobbin: 'Thread on a bobbin',
  speed: 'Stitches a minute',
  price: 'Price',
  quilt: 'Size of the top',
  resize: 'Motif may change size by',
  choose: 'Ways to cover it',
  pass: 'Pass',
  at: 'Stopped at',
  which: 'Which time was it?',
  found: 'Found on the left at',
  overlap: 'Pages overlap by',
  paper: 'Paper',
  repeats: 'Repeats in a row',
  rows: 'Rows on paper',
  curves: 'SVG of few curves, to edit again',
};

const command = /`?(?:\blinewright |(?<=`))(\w+)(?: --reshape)?`?/g;
const example = /, as in --([a-z-]+) [^,]+,/g;
const option = /(?<![\w-])--([a-z][a-z-]*)/g;

export function onPage(sentence: string): string {
  return (
    sentence
      .replace(command, (said, name: string) => (Object.hasOwn(steps, name) ? quoted(steps[name]) : said))
      // What is typed after an option is typed into its field here.
      .replace(example, ' in --$1')
      .replace(option, (said, name: string) =>
        Object.hasOwn(fieldNames, name) ? quoted(fieldNames[name]) : said,
      )
      .replace(`Let ${quoted(steps.mend)} put it right.`, `See ${quoted(steps.mend)}.`)
      // A length such as 3 1/8 in stays in one line.
      .replace(/(?<=\d) (?=\d+\/\d+ in\b)|(?<=\d) (?=(?:in|mm)\b)/g, '\u00a0')
  );
}

function quoted(name: string): string {
  return `\u201c${name.replace(/\?$/, '')}\u201d`;
}
