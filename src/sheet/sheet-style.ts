/** How a sheet looks, on paper first: letter or A4, one or two pages, readable in black and white. */
export const sheetStyle = `
@page { margin: 14mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 190mm; padding: 6mm; color: #1a1a1a; background: #fff;
  font: 11pt/1.4 system-ui, "Segoe UI", "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 20pt; line-height: 1.15; margin: 0 0 1.5mm; }
h2 { font-size: 13pt; margin: 6mm 0 2mm; break-after: avoid; }
p { margin: 0 0 2mm; }
header { border-bottom: 1pt solid #1a1a1a; padding-bottom: 3mm; margin-bottom: 4mm; }
.verdict { font-weight: 700; }
figure { margin: 0 0 3mm; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; max-height: 95mm; }
h2 + p { break-before: avoid; }
figcaption { font-size: 9.5pt; color: #444; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; break-inside: avoid; overflow-wrap: normal; }
.scroll + p { margin-top: 2mm; }
th, td { text-align: left; vertical-align: top; padding: 1mm 2mm 1mm 0; border-bottom: .5pt solid #bbb; }
thead th { font-size: 9.5pt; border-bottom: 1pt solid #1a1a1a; }
tbody th { font-weight: 600; white-space: nowrap; }
tbody th small { display: block; font-weight: 400; padding-right: 2mm; }
tr.chosen { background: #f1f1f1; }
ul { padding-left: 5mm; margin: 0; }
ul > li { margin-bottom: 2mm; break-inside: avoid; }
li.info { font-size: 9.5pt; color: #444; }
.care { border: 1pt solid #1a1a1a; padding: 3mm 4mm; margin-top: 6mm; break-inside: avoid; }
.care h2 { margin-top: 0; }
.care ul { margin: 0; padding-left: 5mm; }
footer { margin-top: 4mm; font-size: 9pt; color: #444; }
footer p { margin: 0; }
@media screen and (max-width: 150mm) {
  .layouts, .layouts tbody, .layouts tr, .layouts th, .layouts td { display: block; }
  .layouts thead { display: none; }
  .layouts tr { border-bottom: .5pt solid #bbb; padding: 1mm 0; }
  .layouts th, .layouts td { border: 0; padding: .5mm 2mm; }
  .layouts td::before { content: attr(data-name) ": "; color: #444; }
}
@media print {
  body { padding: 0; max-width: none; font-size: 10pt; line-height: 1.3; }
  h1 { font-size: 18pt; }
  h2 { font-size: 12pt; margin: 4mm 0 1.5mm; }
  ul > li { margin-bottom: 1mm; }
  li.info { font-size: 9pt; }
  figure svg { max-height: 75mm; }
  .care { margin-top: 4mm; padding: 2mm 3mm; }
  .layouts td { font-size: 9pt; white-space: nowrap; }
  .long, .long figcaption, .long th, .long td, .long li.info, .long footer { font-size: 8pt; line-height: 1.25; }
  .long h1 { font-size: 15pt; }
  .long h2 { font-size: 10.5pt; margin: 2.5mm 0 1mm; }
  .long p, .long figure { margin-bottom: 1.5mm; }
  .long header { margin-bottom: 2mm; padding-bottom: 1mm; }
  .long li { margin-bottom: .4mm; }
  .long th, .long td { padding: .4mm 2mm .4mm 0; }
  .long figure svg { max-height: 52mm; }
  .long .care { margin-top: 2.5mm; padding: 1.5mm 2mm; }
  .long .care h2 { margin: 0 0 1mm; }
}
`;
