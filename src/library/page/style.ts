/** How the library page looks: on a wide screen, on a phone, and on paper. */
export const pageStyle = `
* { box-sizing: border-box; }
:root { color-scheme: light; }
body { margin: 0 auto; max-width: 80rem; padding: 1rem; color: #1a1a1a; background: #fff;
  font: 1rem/1.45 system-ui, "Segoe UI", "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; margin: 0 0 .25rem; }
h2 { font-size: 1.2rem; margin: 2rem 0 .5rem; }
h3 { font-size: 1.05rem; margin: .5rem 0 .1rem; }
p { margin: 0 0 .25rem; }
form { display: grid; gap: .5rem .75rem; grid-template-columns: repeat(auto-fill, minmax(8.5rem, 1fr)); align-items: end;
  margin: 1rem 0; padding: .75rem; border: 1px solid #999; }
label { display: block; font-size: .85rem; }
form > p { grid-column: span 2; margin: 0; padding: .5rem 0; }
[aria-invalid=true] { border: 2px dashed #b00020; }
input, select, button { display: block; width: 100%; min-height: 2.4rem; padding: .3rem .4rem; font: inherit; color: inherit;
  background: #fff; border: 1px solid #666; border-radius: 0; }
button { cursor: pointer; font-weight: 600; }
:focus-visible { outline: 3px solid #0072b2; outline-offset: 2px; }
#motifs { display: grid; gap: 1.25rem; grid-template-columns: repeat(auto-fill, minmax(min(17rem, 100%), 1fr)); list-style: none;
  margin: 0; padding: 0; }
#motifs > li { border-top: 2px solid #1a1a1a; padding-top: .5rem; break-inside: avoid; }
#motifs > li[hidden] { display: none; }
#motifs img { display: block; width: 100%; height: 9rem; object-fit: contain; }
a { color: #005a8c; }
.facts, .by { font-size: .9rem; color: #333; }
.verdict { font-weight: 700; }
.tags span { border: 1px solid #666; padding: 0 .3rem; font-size: .85rem; margin-right: .25rem; }
li.trouble { margin-bottom: .6rem; }
footer { margin-top: 2rem; font-size: .9rem; color: #333; }
@media (max-width: 30rem) {
  form .words { grid-column: 1 / -1; }
}
@media print {
  form, .screen { display: none; }
  body { padding: 0; max-width: none; }
  #motifs { grid-template-columns: repeat(3, 1fr); }
  #motifs img { height: 32mm; }
  a { color: inherit; text-decoration: none; }
}
`;
