//! Names that stand for things, and those who ask for them.

use crate::fault::{Fault, Place, joined};
use crate::nearest::suggestion;
use crate::reader::Reader;
use crate::record::{Datum, Placed};
use crate::table::{Kind, Of};
use crate::tree::{Content, Node};
use crate::value::MOST;

/// Names that stand for things, and places that ask for them.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Names {
    pub(crate) given: Vec<(Of, String)>,
    pub(crate) asked: Vec<(Of, Place)>,
    /// Kinds that stand in another file.
    pub(crate) elsewhere: bool,
}

impl Names {
    /// A fault for every name that is asked for and not given, here or by `others`.
    pub(crate) fn check(&self, faults: &mut Vec<Fault>, others: Option<&[(Of, String)]>) {
        for (of, place) in &self.asked {
            if self.elsewhere && others.is_none() && *of != Of::Arch {
                continue;
            }
            let all = self.given.iter().chain(others.unwrap_or_default());
            let known: Vec<_> = all
                .filter(|(o, _)| o == of)
                .map(|(_, name)| name.as_str())
                .collect();
            let name = place.given.as_deref().unwrap_or_default();
            if !known.contains(&name) {
                let what = format!("there is no {} of this name", of.noun());
                let help = match of {
                    Of::Stock | Of::Machine if known.is_empty() => {
                        format!(
                            "the shop has none; `shop: FILE` says which shop, and its `{}:` what is there",
                            of.list()
                        )
                    }
                    _ => suggestion(name, known),
                };
                faults.push(place.fault(what, Some(help)));
            }
        }
    }
}

impl Reader<'_> {
    /// A mapping from names to things of one kind.
    pub(crate) fn named(&mut self, node: &Node, path: &str, of: Of, kind: &'static Kind) -> Option<Datum> {
        let Content::Map(entries) = &node.content else {
            let help = Some(Kind::Named(of, kind).wanted());
            self.fault(&node.mark, path, "a mapping of names is wanted here", help);
            return None;
        };
        if entries.len() > MOST {
            let what = format!("this holds {} names", entries.len());
            self.fault(&node.mark, path, what, Some(format!("take at most {MOST}")));
            return None;
        }
        let mut named: Vec<(String, Placed)> = Vec::new();
        for (key, value) in entries {
            let name = key.text.clone().unwrap_or_default();
            let path = joined(path, &name);
            // A name that is not fit still answers those who ask for it: its own fault is enough.
            self.names.given.push((of, name.clone()));
            if let Err(what) = fit_for_a_name(&name) {
                let help = "take letters without accents, digits, `-` and `_`, at most 40".to_owned();
                self.fault(key, &path, what, Some(help));
                continue;
            }
            if let Some((other, _)) = named
                .iter()
                .find(|(n, _)| *n != name && n.eq_ignore_ascii_case(&name))
            {
                let what = format!(
                    "this differs from `{other}` by capitals alone, which some disks cannot tell apart"
                );
                self.fault(key, &path, what, None);
            }
            if let Some(placed) = self.datum(value, &path, kind)
                && named.iter().all(|(n, _)| *n != name)
            {
                named.push((name, placed));
            }
        }
        Some(Datum::Named(named))
    }
}

/// Names reach the names of files and folders, so they hold nothing that a disk or a controller stumbles over.
fn fit_for_a_name(name: &str) -> Result<(), &'static str> {
    /// The longest name, characters.
    const LONGEST: usize = 40;
    let plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    match name.chars().next() {
        None => Err("a name is empty"),
        Some(c) if !c.is_ascii_alphanumeric() => Err("a name begins with a letter or a digit"),
        Some(_) if !name.chars().all(plain) => Err("a name holds something that a file's name cannot"),
        Some(_) if name.len() > LONGEST => Err("a name is too long"),
        Some(_) => Ok(()),
    }
}
