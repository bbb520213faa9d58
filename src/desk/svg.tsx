/** A picture of the core, which is SVG text of our own making: nothing of a file's text is in it. */
export function Svg({ text, label, class: name = 'picture' }: { text: string; label: string; class?: string }) {
  return (
    <div
      class={name}
      role="img"
      aria-label={label}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: made by src/picture from numbers alone
      dangerouslySetInnerHTML={{ __html: text }}
    />
  );
}
