//! What follows a template: a guide bush round the bit, or the bit's own bearing.

use super::TemplateError;

/// The bit turns free in a bush that is this much wider, mm: about 1/8 in, for chips and for a bush that is not quite centred.
pub const BUSH_CLEARANCE: f64 = 3.0;

/// A recess and its insert may be this far apart on each side, mm: more is no fit, and none of it may be negative.
const LOOSEST: f64 = 0.15;

/// Sizes of bushes nearer than this are one, mm.
const SAME: f64 = 1e-6;

/// What follows a template, and the bit that it guides. mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guide {
    /// What it is.
    pub kind: GuideKind,
    /// Its outer diameter.
    pub diameter: f64,
    /// The bit's cutting diameter.
    pub bit: f64,
}

/// What follows a template.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GuideKind {
    /// A guide bush.
    Bush,
    /// The bearing of a bearing bit.
    Bearing,
}

impl Guide {
    /// How far inside the edge of the work the template's edge stands, mm; outside it where negative, under a bearing that is
    /// narrower than its bit.
    pub fn setback(self) -> f64 {
        (self.diameter - self.bit) / 2.0
    }

    /// The diameter of bush or bearing at which the setback would be `setback`.
    pub(super) fn at_setback(self, setback: f64) -> f64 {
        2.0 * setback + self.bit
    }

    pub(super) const fn name(self) -> &'static str {
        match self.kind {
            GuideKind::Bush => "bush",
            GuideKind::Bearing => "bearing",
        }
    }
}

/// The bush for a bit: the one asked for, else the narrowest of the shop's that clears it.
pub fn bush(asked: Option<f64>, bit: f64, shop: &[f64]) -> Result<f64, TemplateError> {
    let least = bit + BUSH_CLEARANCE;
    if let Some(given) = asked {
        if given < least {
            return Err(TemplateError::Bush { given, bit, least });
        }
        if !shop.is_empty() && !shop.iter().any(|own| (own - given).abs() < SAME) {
            let has = listed(shop);
            return Err(TemplateError::NotInShop { given, has });
        }
        return Ok(given);
    }
    let clear = shop.iter().copied().filter(|own| *own >= least);
    clear.min_by(f64::total_cmp).ok_or_else(|| TemplateError::NoBush {
        bit,
        least,
        has: listed(shop),
    })
}

/// The bushes for a recess and for the insert that fills it, both cut by one bit in one opening.
///
/// The recess's edge lies (D - b) / 2 outside the road of the bush's rim, the insert's (d + b) / 2 inside it; they are one line
/// where D = d + 2 b.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// The wide bush, for the recess.
    pub recess: f64,
    /// The narrow one, for the insert.
    pub insert: f64,
    /// How far the insert stands clear of the recess all round.
    pub clearance: f64,
}

/// The two bushes of the shop's that fit a bit most closely, one of them the one asked for; `bits` are the shop's other bits.
pub fn pair(asked: Option<f64>, bit: f64, shop: &[f64], bits: &[f64]) -> Result<Pair, TemplateError> {
    if let Some(given) = asked {
        bush(asked, bit, &[])?;
        if !shop.iter().any(|own| (own - given).abs() < SAME) {
            let has = listed(shop);
            return Err(TemplateError::NotInShop { given, has });
        }
    }
    let wanted = |pair: &Pair| {
        asked.is_none_or(|own| (pair.recess - own).abs() < SAME || (pair.insert - own).abs() < SAME)
    };
    let best = pairs(bit, shop).into_iter().filter(wanted);
    best.min_by(|a, b| a.clearance.total_cmp(&b.clearance))
        .ok_or_else(|| TemplateError::Pair {
            bit,
            wanted: match asked {
                Some(own) => format!(
                    "a bush of {own} mm for the insert wants one of {} mm for the recess",
                    own + 2.0 * bit
                ),
                None => format!("the wide one is {} mm wider than the narrow one", 2.0 * bit),
            },
            has: listed(shop),
            fit: fitting(bit, shop, bits),
        })
}

/// Every pair of bushes that fits a bit.
fn pairs(bit: f64, shop: &[f64]) -> Vec<Pair> {
    let all = shop
        .iter()
        .flat_map(|&recess| shop.iter().map(move |&insert| (recess, insert)));
    let pairs = all.map(|(recess, insert)| Pair {
        recess,
        insert,
        clearance: (recess - insert) / 2.0 - bit,
    });
    let fits =
        |pair: &Pair| pair.insert >= bit + BUSH_CLEARANCE && (-SAME..=LOOSEST).contains(&pair.clearance);
    pairs.filter(fits).collect()
}

/// Which pairs of the shop's bushes fit the bit, else any other of its bits.
fn fitting(bit: f64, shop: &[f64], bits: &[f64]) -> String {
    let told = |bit: f64| {
        let each = pairs(bit, shop);
        let each = each.iter().map(|p| format!("{} and {} mm", p.insert, p.recess));
        each.collect::<Vec<_>>().join(", ")
    };
    let own = told(bit);
    if !own.is_empty() {
        return format!("of these {own} fit it");
    }
    let others = bits.iter().filter(|other| !pairs(**other, shop).is_empty());
    let others: Vec<String> = others
        .map(|other| format!("{} with a bit of {other} mm", told(*other)))
        .collect();
    if others.is_empty() {
        "no two of these fit any of its bits".to_owned()
    } else {
        format!("of these fit {}", others.join("; "))
    }
}

fn listed(sizes: &[f64]) -> String {
    if sizes.is_empty() {
        return "none: list them under `bushes`".to_owned();
    }
    let each: Vec<String> = sizes.iter().map(f64::to_string).collect();
    format!("{} mm", each.join(", "))
}
