//! The markup of the job sheet. Nothing of the user's gets onto the page but through [`text`], which makes it safe; and
//! the page is well-formed XML besides, so that a parser can tell.

use std::fmt::Write as _;

/// Markup that may go onto the page as it stands.
#[derive(Clone, Debug, Default)]
pub(super) struct Html(String);

/// Words, as words and nothing else.
pub(super) fn text(words: &str) -> Html {
    let safe = words
        // What XML has no place for, and what turns the reading order of the words after it.
        .replace(
            |c: char| {
                (c.is_control() && c != '\n')
                    || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
            },
            " ",
        )
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
        .replace('\'', "&#39;");
    Html(safe)
}

/// Words as they are typed or as a file holds them.
pub(super) fn code(words: &str) -> Html {
    Html(format!("<code>{}</code>", text(words).0))
}

/// A checksum, which may be broken anywhere.
pub(super) fn sum(words: &str) -> Html {
    Html(format!("<code class=\"sum\">{}</code>", text(words).0))
}

/// Words that must not be overlooked.
pub(super) fn strong(words: &str) -> Html {
    Html(format!("<strong>{}</strong>", text(words).0))
}

/// A way to another place on the page.
pub(super) fn link(words: &str, id: &str) -> Html {
    Html(format!("<a href=\"#{}\">{}</a>", text(id).0, text(words).0))
}

impl Html {
    /// This and then that.
    pub(super) fn and(mut self, next: Self) -> Self {
        self.0 += &next.0;
        self
    }

    /// This and then these words.
    pub(super) fn then(self, words: &str) -> Self {
        self.and(text(words))
    }
}

/// A page in the making.
#[derive(Default)]
pub(super) struct Page {
    text: String,
}

impl Page {
    /// The whole document.
    pub(super) fn document(self, title: &str, style: &str) -> String {
        let title = text(title).0;
        // Off line and without a script: the browser is told to fetch and to run nothing.
        format!(
            "<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n<meta charset=\"utf-8\"/>\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n\
             <meta http-equiv=\"Content-Security-Policy\" content=\"default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;\"/>\n\
             <title>{title}: job sheet</title>\n<style>\n{style}</style>\n</head>\n<body>\n<main>\n<h1>{title}</h1>\n{}</main>\n</body>\n</html>\n",
            self.text
        )
    }

    fn put(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    /// Opens a part of the page under a heading of its own; `kind` is for its looks.
    pub(super) fn section(&mut self, id: &str, kind: &str, heading: &str, inside: impl FnOnce(&mut Self)) {
        let (id, heading) = (text(id).0, text(heading).0);
        self.put(&format!(
            "<section id=\"{id}\" class=\"{kind}\" aria-labelledby=\"{id}-head\">\n<h2 id=\"{id}-head\">{heading}</h2>"
        ));
        inside(self);
        self.put("</section>");
    }

    /// Ways to the parts of the page.
    pub(super) fn contents(&mut self, ways: &[(String, String)]) {
        self.put("<nav aria-label=\"On this sheet\">\n<ul>");
        for (id, words) in ways {
            self.put(&format!("<li>{}</li>", link(words, id).0));
        }
        self.put("</ul>\n</nav>");
    }

    pub(super) fn heading(&mut self, words: &str) {
        self.put(&format!("<h3>{}</h3>", text(words).0));
    }

    pub(super) fn paragraph(&mut self, words: &Html) {
        self.put(&format!("<p>{}</p>", words.0));
    }

    /// A list; one in the order to do it where it is numbered. Nothing where it has no item.
    pub(super) fn list(&mut self, numbered: bool, items: impl IntoIterator<Item = Html>) {
        let mut items = items.into_iter().peekable();
        if items.peek().is_none() {
            return;
        }
        let tag = if numbered { "ol" } else { "ul" };
        self.put(&format!("<{tag}>"));
        for item in items {
            self.put(&format!("<li>{}</li>", item.0));
        }
        self.put(&format!("</{tag}>"));
    }

    /// Names and what is to be known of each.
    pub(super) fn facts(&mut self, facts: &[(&str, Vec<Html>)]) {
        self.put("<dl>");
        for (name, values) in facts {
            let values = values.iter().fold(String::new(), |mut all, value| {
                // Writing into a string does not fail.
                let _ = write!(all, "<dd>{}</dd>", value.0);
                all
            });
            self.put(&format!("<div><dt>{}</dt>{values}</div>", text(name).0));
        }
        self.put("</dl>");
    }

    /// A table whose first column names its rows. On a narrow page each row becomes a block, its heads beside its cells.
    pub(super) fn table(&mut self, caption: &str, heads: &[&str], rows: &[Vec<Html>]) {
        let put_row = |cells: String| format!("<tr>{cells}</tr>");
        let heading: String = heads
            .iter()
            .map(|head| format!("<th scope=\"col\">{}</th>", text(head).0))
            .collect();
        self.put(&format!(
            "<table>\n<caption>{}</caption>\n<thead>{}</thead>\n<tbody>",
            text(caption).0,
            put_row(heading)
        ));
        for row in rows {
            let cell = |(i, (cell, head)): (usize, (&Html, &&str))| match i {
                0 => format!("<th scope=\"row\">{}</th>", cell.0),
                _ => format!("<td data-head=\"{}\"><span>{}</span></td>", text(head).0, cell.0),
            };
            self.put(&put_row(row.iter().zip(heads).enumerate().map(cell).collect()));
        }
        self.put("</tbody>\n</table>");
    }

    /// A picture of the tool's own, with what it shows in words. It is as wide as the page, and larger where asked for.
    pub(super) fn picture(&mut self, id: &str, svg: &str, shows: &str) {
        let (id, shows) = (text(id).0, text(shows).0);
        // The picture's own prologue has no place inside a page.
        let svg = svg.find("<svg").map_or(svg, |at| &svg[at + "<svg".len()..]);
        self.put(&format!(
            "<figure>\n<figcaption>{shows}</figcaption>\n<input type=\"checkbox\" id=\"{id}-larger\"/><label for=\"{id}-larger\">\
             larger, to be moved about<span class=\"unseen\">: {shows}</span></label>\n<div class=\"slide\" tabindex=\"0\" role=\"group\" \
             aria-label=\"{shows}\"><svg role=\"img\" aria-label=\"{shows}\"{}</div>\n</figure>",
            svg.trim_end()
        ));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stay_words() {
        let hostile = "<img src=x onerror=\"alert('1')\"> & \u{202e}\u{7}";
        let safe = text(hostile).0;
        assert_eq!(
            safe,
            "&lt;img src=x onerror=&quot;alert(&#39;1&#39;)&quot;&gt; &amp;   "
        );
        let mut page = Page::default();
        page.section(hostile, "made", hostile, |page| {
            page.table(
                hostile,
                &[hostile, hostile],
                &[vec![text(hostile), code(hostile)]],
            );
            page.list(false, [strong(hostile).then(hostile), link(hostile, hostile)]);
            page.facts(&[("stock", vec![text(hostile)])]);
            page.picture(
                hostile,
                "<svg xmlns=\"http://www.w3.org/2000/svg\"></svg>",
                hostile,
            );
        });
        let document = page.document(hostile, "");
        let options = roxmltree::ParsingOptions {
            allow_dtd: true,
            ..roxmltree::ParsingOptions::default()
        };
        let read = roxmltree::Document::parse_with_options(&document, options).expect("it is XML");
        let spoilt = read
            .descendants()
            .filter(|node| matches!(node.tag_name().name(), "img" | "script"));
        assert_eq!(spoilt.count(), 0, "{document}");
    }
}
