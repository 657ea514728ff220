//! `imsmanifest.xml`: what a learning system is told of a package.
//!
//! Of SCORM 1.2 the content aggregation model 1.2, of SCORM 2004 its 4th edition; both on IMS content packaging. A test
//! holds them against the standards' schemas.

use super::Standard;
use crate::markup::escaped;

/// A lesson that a learning system starts.
pub struct Page {
    /// The name of its folder.
    pub name: String,
    /// Its title.
    pub title: String,
    /// What it is about.
    pub about: String,
}

impl Page {
    /// Where its page is.
    pub fn href(&self) -> String {
        format!("{}/index.html", self.name)
    }

    /// Whether a file is its alone.
    fn owns(&self, file: &str) -> bool {
        file.strip_prefix(&*self.name).is_some_and(|rest| rest.starts_with('/'))
    }
}

/// Names and namespaces where the two standards differ.
struct Terms {
    namespaces: &'static str,
    version: &'static str,
    kind: &'static str,
    /// What stands in each item, and in the organization after its items.
    item: &'static str,
    all: &'static str,
}

const SCORM_12: Terms = Terms {
    namespaces: "xmlns=\"http://www.imsproject.org/xsd/imscp_rootv1p1p2\" \
                 xmlns:adlcp=\"http://www.adlnet.org/xsd/adlcp_rootv1p2\" \
                 xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" \
                 xsi:schemaLocation=\"http://www.imsproject.org/xsd/imscp_rootv1p1p2 imscp_rootv1p1p2.xsd \
                 http://www.adlnet.org/xsd/adlcp_rootv1p2 adlcp_rootv1p2.xsd\"",
    version: "1.2",
    kind: "adlcp:scormtype",
    item: "",
    all: "",
};

/// The lesson itself says when it is done and how it went; lessons may be taken in any order.
const SCORM_2004: Terms = Terms {
    namespaces: "xmlns=\"http://www.imsglobal.org/xsd/imscp_v1p1\" \
                 xmlns:adlcp=\"http://www.adlnet.org/xsd/adlcp_v1p3\" \
                 xmlns:imsss=\"http://www.imsglobal.org/xsd/imsss\" \
                 xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" \
                 xsi:schemaLocation=\"http://www.imsglobal.org/xsd/imscp_v1p1 imscp_v1p1.xsd \
                 http://www.adlnet.org/xsd/adlcp_v1p3 adlcp_v1p3.xsd \
                 http://www.imsglobal.org/xsd/imsss imsss_v1p0.xsd\"",
    version: "2004 4th Edition",
    kind: "adlcp:scormType",
    item: "<imsss:sequencing><imsss:deliveryControls completionSetByContent=\"true\" \
           objectiveSetByContent=\"true\"/></imsss:sequencing>",
    all: "<imsss:sequencing><imsss:controlMode choice=\"true\" flow=\"true\"/></imsss:sequencing>\n",
};

/// The manifest of a package that starts `pages` and holds `files`.
pub fn manifest(standard: Standard, pages: &[Page], files: &[String]) -> String {
    let terms = match standard {
        Standard::Scorm12 => SCORM_12,
        Standard::Scorm2004 => SCORM_2004,
    };
    let Terms { namespaces, version, kind, item, all } = terms;
    // One lesson goes by its own name.
    let (identifier, title) = match pages {
        [one] => (format!("outlean.{}", escaped(&one.name)), one.title.as_str()),
        _ => ("outlean".to_owned(), "Outlean"),
    };
    let items: String = pages
        .iter()
        .map(|Page { name, title, .. }| {
            let name = escaped(name);
            format!(
                "<item identifier=\"item.{name}\" identifierref=\"page.{name}\"><title>{}</title>{item}</item>\n",
                escaped(title)
            )
        })
        .collect();
    let file = |file: &String| format!("<file href=\"{}\"/>\n", escaped(file));
    let resources: String = pages
        .iter()
        .map(|page| {
            let own: String = files.iter().filter(|file| page.owns(file)).map(file).collect();
            format!(
                "<resource identifier=\"page.{}\" type=\"webcontent\" {kind}=\"sco\" href=\"{}\">\n{own}\
                 <dependency identifierref=\"shared\"/>\n</resource>\n",
                escaped(&page.name),
                escaped(&page.href())
            )
        })
        .collect();
    let shared: String =
        files.iter().filter(|file| !pages.iter().any(|page| page.owns(file))).map(file).collect();
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <manifest identifier=\"{identifier}\" version=\"1.0\" {namespaces}>\n\
         <metadata><schema>ADL SCORM</schema><schemaversion>{version}</schemaversion></metadata>\n\
         <organizations default=\"course\">\n<organization identifier=\"course\">\n<title>{}</title>\n{items}{all}\
         </organization>\n</organizations>\n\
         <resources>\n{resources}<resource identifier=\"shared\" type=\"webcontent\" {kind}=\"asset\">\n{shared}\
         </resource>\n</resources>\n</manifest>\n",
        escaped(title)
    )
}
