//! Mappings that are one of several cases: a shape, a form, a kind of machine.

use crate::fault::joined;
use crate::marks::Mark;
use crate::nearest::{nearest, suggestion};
use crate::reader::{Reader, Told, child};
use crate::record::Record;
use crate::table::{Case, Cases};
use crate::tree::{Content, Node};

impl Reader<'_> {
    /// A mapping in which the field `tag` says which case it is.
    pub(crate) fn cases(&mut self, node: &Node, path: &str, cases: &'static Cases) -> Option<Record> {
        let tag = child(node, cases.tag);
        let case = match (tag, cases.default) {
            (Some(tag), _) => self.case(&tag.mark, &joined(path, cases.tag), cases)?,
            (None, Some(name)) => cases.cases.iter().find(|case| case.name == name)?,
            (None, None) if matches!(node.content, Content::Map(_)) => {
                let bare = Mark {
                    text: None,
                    ..node.mark.clone()
                };
                let help = format!("{}; {}", cases.help, made(cases));
                self.fault(
                    &bare,
                    &joined(path, cases.tag),
                    "this field is missing",
                    Some(help),
                );
                return None;
            }
            (None, None) => return self.mapping(node, path, &[], None),
        };
        let told = Told { by: cases.tag, case };
        self.mapping(node, path, &[cases.common, case.fields], Some(told))
    }

    /// A mapping whose one name is that of the case.
    pub(crate) fn one_case(&mut self, node: &Node, path: &str, cases: &'static Cases) -> Option<Record> {
        match &node.content {
            Content::Map(entries) if entries.len() == 1 => {
                let (key, value) = &entries[0];
                let path = joined(path, key.text.as_deref().unwrap_or_default());
                let case = self.case(key, &path, cases)?;
                if value.content == Content::Empty {
                    let help = "set its fields further in than its name, or in braces after it".to_owned();
                    self.fault(&value.mark, &path, "nothing is given here", Some(help));
                    return None;
                }
                let told = Told { by: "", case };
                self.mapping(value, &path, &[cases.common, case.fields], Some(told))
            }
            _ => {
                let what = format!("each {} is one name with its fields under it", cases.tag);
                let help = format!(
                    "write `- {}: {{ … }}`, or set its fields further in",
                    cases.cases[0].name
                );
                self.fault(&node.mark, path, what, Some(help));
                None
            }
        }
    }

    fn case(&mut self, mark: &Mark, path: &str, cases: &'static Cases) -> Option<&'static Case> {
        let name = mark.text.as_deref().unwrap_or_default();
        match cases.cases.iter().find(|case| case.name == name) {
            Some(case) => Some(case),
            None => {
                let names = cases.cases.iter().map(|case| case.name);
                let what = format!("no such {} is known", cases.tag);
                let near = nearest(name, cases.cases.iter().map(|case| case.name));
                let help = match near {
                    Some(near) => format!("did you mean `{near}`? {}", made(cases)),
                    None => suggestion(name, names),
                };
                self.fault(mark, path, what, Some(help));
                None
            }
        }
    }
}

fn made(cases: &Cases) -> String {
    let names: Vec<_> = cases.cases.iter().map(|case| case.name).collect();
    format!("can be made: {}", names.join(", "))
}
