/**
 * A picture of the core, which is SVG text of our own making: nothing of a file's text is in it. One without a label only
 * shows what is said beside it.
 */
export function Svg({ text, label }: { readonly text: string; readonly label?: string }) {
  const said =
    label === undefined
      ? ({ 'aria-hidden': true } as const)
      : ({ role: 'img', 'aria-label': label } as const);
  return <div class="picture" {...said} dangerouslySetInnerHTML={{ __html: text }} />;
}
