use crate::DocInfo;
use crate::xml::escaped;

/// The XMP packet (ISO 16684-1) of a document. It names no dates, so that the same pages give the same bytes.
pub(super) fn packet(info: &DocInfo) -> String {
    let mut body = String::new();
    let mut add = |text: String| body.push_str(&text);
    let lang = |tag: &str, value: &str| {
        let value = escaped(value);
        format!("<dc:{tag}><rdf:Alt><rdf:li xml:lang=\"x-default\">{value}</rdf:li></rdf:Alt></dc:{tag}>\n")
    };
    let list = |tag: &str, kind: &str, values: &[String]| {
        let items: String = values.iter().map(|v| format!("<rdf:li>{}</rdf:li>", escaped(v))).collect();
        format!("<dc:{tag}><rdf:{kind}>{items}</rdf:{kind}></dc:{tag}>\n")
    };
    add("<dc:format>application/pdf</dc:format>\n".into());
    add(lang("title", &info.title));
    for (tag, value) in [("description", &info.subject), ("rights", &info.rights)] {
        if !value.is_empty() {
            add(lang(tag, value));
        }
    }
    if !info.author.is_empty() {
        add(list("creator", "Seq", std::slice::from_ref(&info.author)));
    }
    if !info.keywords.is_empty() {
        add(list("subject", "Bag", &info.keywords));
        add(format!("<pdf:Keywords>{}</pdf:Keywords>\n", escaped(&info.keywords.join(","))));
    }
    let version = env!("CARGO_PKG_VERSION");
    add(format!("<pdf:Producer>Gablewright {version}</pdf:Producer>\n"));
    add("<xmp:CreatorTool>Gablewright</xmp:CreatorTool>\n".into());
    frame(&body)
}

fn frame(body: &str) -> String {
    format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
         <x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n\
         <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n\
         <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" \
         xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">\n\
         {body}</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"w\"?>\n"
    )
}
