//! Where the user's files are to blame for what a stage refuses.

use crate::plan::Planner;
use crate::trouble::Trouble;
use cintre_forms::Form;
use cintre_job::{FormSpec, MachineSpec, Place};
use cintre_toolpath::BitError;
use cintre_work::Part;

/// Whether `name` is that of a part, or of one of its copies.
pub(crate) fn is_copy(name: &str, part: &str) -> bool {
    name.strip_prefix(part)
        .is_some_and(|rest| rest.is_empty() || rest.trim_start().parse::<usize>().is_ok())
}

/// How a form's own fields make its parts smaller, for those that have such.
const fn splitting(form: &cintre_job::Form) -> &'static str {
    use cintre_job::Form;
    match form {
        Form::Centering(_) => {
            "make its ribs of pieces by `build: two-layers` or `build: gusseted`, or less deep by `rib-depth`, or "
        }
        Form::Template(_) => "let it have less `margin` and `clamps`, or ",
        Form::Trammel(_) => {
            "let an arm give way to a bar beyond `longest-arm`, leave the centres' plate out by `centres: false`, or "
        }
        Form::Model(_) => "take a smaller `scale`, or ",
        Form::Pattern(_) | Form::BendingForm(_) | Form::CurvedHead(_) => "",
    }
}

impl Planner<'_> {
    /// The number of the form that a part belongs to, by the part's name or that of one of its copies.
    pub(crate) fn number_of(&self, name: &str) -> Option<usize> {
        let has = |form: &Form| form.parts.iter().any(|part| is_copy(name, &part.name));
        self.forms.iter().position(has)
    }

    /// The form that a part belongs to.
    pub(crate) fn owner(&self, name: &str) -> Option<(&FormSpec, &Form)> {
        let number = self.number_of(name)?;
        Some((self.job.make.get(number)?, &self.forms[number]))
    }

    pub(crate) fn layout_trouble(&self, error: &cintre_layout::Error, parts: &[Part]) -> Trouble {
        use cintre_layout::Error;
        let (part, field) = match error {
            Error::Gap { .. } => return Trouble::Broken(error.to_string()),
            Error::Sheets { stock, needed, .. } => {
                let spec = self.shop.stock.get(stock);
                let fault = spec.map(|spec| {
                    let counted_by = spec.counted_by();
                    let help = format!("`{counted_by}: {needed}` if there are so many, or leave it out");
                    spec.places.at(counted_by).fault(error.to_string(), Some(help))
                });
                return fault.map_or_else(|| Trouble::Broken(error.to_string()), Trouble::impossible);
            }
            Error::TooLarge { part, .. } => {
                return self.too_large(part, error.to_string());
            }
            Error::Outline { name, .. } => {
                let stocks = self.shop.stock.iter();
                let mut of_name = stocks.filter(|(own, spec)| *own == name || spec.of.as_ref() == Some(name));
                if let Some((_, spec)) = of_name.find(|(_, spec)| spec.outline.is_some()) {
                    let help = "give its corners in their order round it, each once".to_owned();
                    return Trouble::impossible(
                        spec.places.at("outline").fault(error.to_string(), Some(help)),
                    );
                }
                (name.as_str(), "stock")
            }
            Error::UnknownStock { part, .. } | Error::NoSize { part } => (part.as_str(), "stock"),
            Error::NoCount { part } => (part.as_str(), "copies"),
            Error::SameName { name } => (name.as_str(), "copies"),
            _ => (parts.first().map_or("", |part| part.name.as_str()), "copies"),
        };
        self.part_fault(part, field, error.to_string(), None)
    }

    /// A part that no sheet takes; or, where the machine reaches only some of the sheet, what it reaches.
    fn too_large(&self, part: &str, what: String) -> Trouble {
        let Some((spec, _)) = self.owner(part) else {
            return Trouble::Broken(what);
        };
        let machine = &spec.machine;
        let bed = self.shop.machines.get(machine).and_then(MachineSpec::bed);
        let sheet = self.shop.stock.get(&spec.stock).map(|stock| stock.sheet);
        let short = bed
            .zip(sheet)
            .filter(|(bed, sheet)| bed[0] < sheet[0] || bed[1] < sheet[1]);
        let more = short.map_or_else(
            || "lay it on a larger sheet".to_owned(),
            |([x, y], _)| format!("cut it on a machine that reaches farther: {machine} reaches {x:.1} × {y:.1} mm of the sheet"),
        );
        let help = format!("{}{more}", splitting(&spec.form));
        Trouble::impossible(spec.places.at("stock").fault(what, Some(help)))
    }

    fn part_fault(&self, part: &str, field: &str, what: String, help: Option<String>) -> Trouble {
        match self.owner(part) {
            Some((spec, _)) => Trouble::impossible(spec.places.at(field).fault(what, help)),
            None => Trouble::Broken(what),
        }
    }

    /// A refusal of the toolpath: at the shop's field that it speaks of, else at the form whose part it names, else at the
    /// machine.
    pub(crate) fn toolpath_trouble(&self, error: &cintre_toolpath::Error, machine: &str) -> Trouble {
        let what = error.to_string();
        let place = self
            .shop_place(error, machine)
            .or_else(|| {
                part_of(error)
                    .and_then(|part| self.owner(part))
                    .map(|(spec, _)| spec.places.at("machine"))
            })
            .or_else(|| {
                self.shop
                    .machines
                    .get(machine)
                    .map(|spec| spec.places().whole.clone())
            });
        match place {
            Some(place) => Trouble::impossible(place.fault(what, None)),
            None => Trouble::Broken(what),
        }
    }

    fn shop_place(&self, error: &cintre_toolpath::Error, machine: &str) -> Option<Place> {
        use cintre_toolpath::Error as E;
        let at = |field: &str| {
            self.shop
                .machines
                .get(machine)
                .map(|spec| spec.places().at(field))
        };
        match error {
            E::Bit(error) => self.bit_place(error, machine),
            E::TabHeight { .. } | E::TabWidth { .. } => at("tabs"),
            E::Web { .. } => at("leave-web"),
            E::Finish { .. } => at("finish"),
            E::NoBeam { field, .. } => at(field),
            E::BeamOffBed { .. } => at("bed"),
            E::NoTabs { .. } => Some(self.shop.house.places.at("spacing")),
            _ => None,
        }
    }

    /// The shop's field that a bit is refused for.
    fn bit_place(&self, error: &BitError, machine: &str) -> Option<Place> {
        use BitError as E;
        let bit = |name: &str, field: &str| self.shop.bits.get(name).map(|spec| spec.places.at(field));
        match error {
            E::NoFeeds { bit: name, .. } | E::NoMotion { bit: name, .. } => bit(name, "feeds"),
            E::Speed { bit: name, speed, .. } => {
                let feeds = self.shop.bits.get(name)?.feeds.values();
                let same = |f: &&cintre_job::Feeds| (f.speed - speed).abs() < 0.5;
                feeds.into_iter().find(same).map(|f| f.places.at("speed"))
            }
            E::TooShort { bit: name, .. } | E::TooLong { bit: name, .. } => {
                let spec = self.shop.bits.get(name)?;
                let length = spec.holder.map_or("cutting-length", |_| "holder");
                bit(name, length)
            }
            E::NoStraightBit { .. } => {
                let spec = self.shop.machines.get(machine)?;
                Some(spec.places().at("bits"))
            }
        }
    }
}

fn part_of(error: &cintre_toolpath::Error) -> Option<&str> {
    use cintre_toolpath::Error as E;
    match error {
        E::Bit(BitError::TooShort { part, .. })
        | E::TooNarrow { part, .. }
        | E::NoBitForBore { part, .. }
        | E::Bore { part, .. }
        | E::Floor { part, .. }
        | E::Groove { part, .. }
        | E::NoWayDown { part, .. }
        | E::Chamfer { part, .. }
        | E::NoVee { part, .. }
        | E::Parallel { part, .. }
        | E::NotThrough { part }
        | E::Swallowed { part, .. }
        | E::ThinBridge { part, .. }
        | E::CannotHold { part, .. }
        | E::NoTabs { part, .. }
        | E::TabWidth { part, .. }
        | E::OffStock { part, .. }
        | E::OffBed { part, .. }
        | E::KeptOut { part, .. } => Some(part),
        E::Bit(_)
        | E::TabHeight { .. }
        | E::NoBeam { .. }
        | E::BeamOffBed { .. }
        | E::Web { .. }
        | E::Finish { .. } => None,
    }
}
