import { type PDFDocument, PDFName } from "@cantoo/pdf-lib";
import type { AboutPages } from "./report/about-pages.ts";
import { PROGRAM } from "./words.ts";

/** Says in a document what it is: title, author, dates and language, as entries and as metadata (ISO 32000-2, 14.3); readers show the title. */
export function addMetadata(document: PDFDocument, { title, author, now, language = "en" }: AboutPages): void {
  document.setTitle(title, { showInWindowTitleBar: true });
  if (author) document.setAuthor(author);
  document.setProducer(PROGRAM);
  document.setCreator(PROGRAM);
  document.setCreationDate(now);
  document.setModificationDate(now);
  document.setLanguage(language);
  const bytes = new TextEncoder().encode(packet({ title, author, now, language }));
  const stream = document.context.stream(bytes, { Type: "Metadata", Subtype: "XML" });
  document.catalog.set(PDFName.of("Metadata"), document.context.register(stream));
}

/** The same as an XMP packet (ISO 16684-1). */
function packet({ title, author, now, language }: Required<Omit<AboutPages, "behind">>): string {
  const moment = `${now.toISOString().slice(0, 19)}Z`;
  const creator = author ? `<dc:creator><rdf:Seq><rdf:li>${escaped(author)}</rdf:li></rdf:Seq></dc:creator>` : "";
  return `<?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">
<dc:format>application/pdf</dc:format>
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">${escaped(title)}</rdf:li></rdf:Alt></dc:title>
${creator}<dc:language><rdf:Bag><rdf:li>${language}</rdf:li></rdf:Bag></dc:language>
<xmp:CreateDate>${moment}</xmp:CreateDate><xmp:ModifyDate>${moment}</xmp:ModifyDate><xmp:MetadataDate>${moment}</xmp:MetadataDate>
<xmp:CreatorTool>${PROGRAM}</xmp:CreatorTool><pdf:Producer>${PROGRAM}</pdf:Producer>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>`;
}

/** Text of XML 1.0: the signs that mean something escaped, those it may not hold left out. */
const escaped = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is taken out
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g, "")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;");
