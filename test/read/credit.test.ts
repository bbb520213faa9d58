/** Credits: title and desc (SVG 2, 5.7), metadata in Dublin Core terms (DCMI Metadata Terms) within RDF. */
import { expect, it } from 'vitest';
import { inMm, read } from './read.js';

const metadata = `<metadata><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"
  xmlns:cc="http://creativecommons.org/ns#" xmlns:dc="http://purl.org/dc/elements/1.1/"><cc:Work rdf:about="">
  <dc:title>Kelp &amp; current</dc:title>
  <dc:creator><cc:Agent><dc:title>Harbour Studio</dc:title></cc:Agent></dc:creator>
  <dc:rights><cc:Agent><dc:title>All rights kept</dc:title></cc:Agent></dc:rights>
  <cc:license rdf:resource="http://example.org/licence"/>
</cc:Work></rdf:RDF></metadata>`;

it('are taken from title, desc and metadata', async () => {
  const { credit } = await read(
    inMm(`<title>\n  Kelp\n  bed </title><desc>Drawn at low tide</desc>${metadata}`),
  );
  expect(credit).toEqual({
    title: 'Kelp bed',
    creator: 'Harbour Studio',
    rights: 'All rights kept',
    description: 'Drawn at low tide',
  });
});

it('take the title of the metadata where the drawing has none, and its licence where no rights are stated', async () => {
  const { credit } = await read(inMm(metadata.replace(/<dc:rights>.*?<\/dc:rights>/s, '')));
  expect(credit).toEqual({
    title: 'Kelp & current',
    creator: 'Harbour Studio',
    rights: 'http://example.org/licence',
  });
});

it('keep markup as text, and leave out control characters', async () => {
  const { credit } = await read(
    inMm('<title>&lt;b&gt;Swell&lt;/b&gt; &#x9b;31m<![CDATA[<script>]]>&#x85;</title>'),
  );
  expect(credit.title).toBe('<b>Swell</b> 31m<script>');
});

it('are empty where nothing is stated', async () => {
  expect((await read(inMm('<g><title>a group</title></g>'))).credit).toEqual({});
});
