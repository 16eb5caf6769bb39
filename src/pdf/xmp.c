#include "pdf/xmp.h"

#include <stddef.h>

/* Elements with their text, escaped for XML. Control characters, which XML 1.0 has no way to write, are left out. */
static void put_escaped(Buf *out, const char *text) {
    for (; *text; text++) {
        unsigned char byte = (unsigned char)*text;
        if (byte == '&')
            BUF_PUT(out, "&amp;");
        else if (byte == '<')
            BUF_PUT(out, "&lt;");
        else if (byte == '>')
            BUF_PUT(out, "&gt;");
        else if (byte >= ' ' || byte == '\t' || byte == '\n')
            buf_putc(out, (char)byte);
    }
}

static void put_element(Buf *out, const char *before, const char *text, const char *after) {
    if (!text || !*text) return;
    buf_puts(out, before);
    put_escaped(out, text);
    buf_puts(out, after);
    buf_putc(out, '\n');
}

static void put_date(Buf *out, const char *name, const char *date) {
    if (date) buf_printf(out, "<xmp:%s>%sT00:00:00Z</xmp:%s>\n", name, date, name);
}

/* PDF/A-2, 6.6.2.3: a property outside the predefined schemas comes with a description of its own. */
static void put_extension(Buf *out) {
    BUF_PUT(out, "<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">\n"
                 "<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>\n"
                 "<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>\n"
                 "<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>\n"
                 "<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType=\"Resource\">\n"
                 "<pdfaProperty:category>internal</pdfaProperty:category>\n"
                 "<pdfaProperty:description>Part of ISO 14289</pdfaProperty:description>\n"
                 "<pdfaProperty:name>part</pdfaProperty:name>\n"
                 "<pdfaProperty:valueType>Integer</pdfaProperty:valueType>\n"
                 "</rdf:li></rdf:Seq></pdfaSchema:property>\n"
                 "</rdf:li></rdf:Bag></pdfaExtension:schemas>\n"
                 "<pdfuaid:part>1</pdfuaid:part>\n");
}

static void put_head(Buf *out) {
    BUF_PUT(out, "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
                 "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
                 "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
                 "<rdf:Description rdf:about=\"\"\n"
                 " xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n"
                 " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\"\n"
                 " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"\n"
                 " xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"\n"
                 " xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\"\n"
                 " xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\"\n"
                 " xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\"\n"
                 " xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n");
}

void xmp_write(const MetaText *meta, Buf *out) {
    static const char in_language[] = "<rdf:Alt><rdf:li xml:lang=\"x-default\">";
    Buf before = {0};
    put_head(out);
    buf_printf(&before, "<dc:title>%s", in_language);
    put_element(out, buf_text(&before), meta->title, "</rdf:li></rdf:Alt></dc:title>");
    put_element(out, "<dc:creator><rdf:Seq><rdf:li>", meta->author, "</rdf:li></rdf:Seq></dc:creator>");
    before.length = 0;
    buf_printf(&before, "<dc:description>%s", in_language);
    put_element(out, buf_text(&before), meta->subject, "</rdf:li></rdf:Alt></dc:description>");
    buf_free(&before);
    put_element(out, "<pdf:Producer>", meta->producer, "</pdf:Producer>");
    put_element(out, "<xmp:CreatorTool>", meta->producer, "</xmp:CreatorTool>");
    put_date(out, "CreateDate", meta->date);
    put_date(out, "ModifyDate", meta->date);
    BUF_PUT(out, "<pdfaid:part>2</pdfaid:part>\n<pdfaid:conformance>U</pdfaid:conformance>\n");
    if (meta->accessible) put_extension(out);
    BUF_PUT(out, "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>");
}
