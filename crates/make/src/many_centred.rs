//! Arches of three, four and five centres: what fixes them besides span and rise, which is a construction or sizes.

use cintre_geometry::arch::{
    Arch, ArchError, FiveCentred, FiveCentredBy, FourCentred, FourCentredBy, ThreeCentred, ThreeCentredBy,
};
use cintre_job::{ArchSpec, Fault, Shape};

/// Works out an arch of several centres; a fault where its sizes are some of what fixes it, or stand beside a construction.
pub(crate) fn arch(spec: &ArchSpec, span: f64, rise: f64) -> Result<Result<Arch, ArchError>, Fault> {
    Ok(match spec.shape {
        Shape::FourCentred => {
            let by = given(spec, ["haunch-radius", "haunch-turn"])?.map_or(
                FourCentredBy::TwoThirds,
                |[radius, turn]| FourCentredBy::Haunch { radius, turn },
            );
            FourCentred { span, rise, by }.arch()
        }
        Shape::FiveCentred => {
            let by = given(spec, ["haunch-radius", "haunch-turn", "middle-turn"])?.map_or(
                FiveCentredBy::MeanRadius,
                |[radius, turn, middle_turn]| FiveCentredBy::Haunch {
                    radius,
                    turn,
                    middle_turn,
                },
            );
            FiveCentred { span, rise, by }.arch()
        }
        _ => {
            let construction = spec.options.get("construction").map(String::as_str);
            let by = match (given(spec, ["haunch-radius"])?, construction) {
                (Some([radius]), _) => ThreeCentredBy::HaunchRadius(radius),
                (None, Some("sixty")) => ThreeCentredBy::Sixty,
                (None, _) => ThreeCentredBy::LeastRatio,
            };
            ThreeCentred { span, rise, by }.arch()
        }
    })
}

/// All of the sizes, or none of them.
fn given<const N: usize>(spec: &ArchSpec, words: [&str; N]) -> Result<Option<[f64; N]>, Fault> {
    let sizes = words.map(|word| spec.size(word));
    let all = words.map(|word| format!("`{word}`")).join(", ");
    if sizes.iter().all(Option::is_none) {
        return Ok(None);
    }
    if spec.options.contains_key("construction") {
        let what = "a construction fixes the arch, and its haunch is given besides";
        let help = format!("leave out `construction`, or {all}");
        return Err(spec.places.at("construction").fault(what, Some(help)));
    }
    if let Some(missing) = words.into_iter().zip(sizes).find(|(_, size)| size.is_none()) {
        let what = format!("without this the haunch does not fix the arch: {all} go together");
        let help = "or leave them all out for the usual construction".to_owned();
        return Err(spec.places.at(missing.0).fault(what, Some(help)));
    }
    Ok(Some(sizes.map(|size| size.unwrap_or(f64::NAN))))
}
