//! Figures of a measured arch: how well its line keeps to the points, and what is advised.

use super::Shown;
use super::rows::Rows;
use cintre_geometry::measured::{Likely, Line, Survey, radius_change};
use serde_json::{Value, json};

/// How much the radius moves where the rise was read `reading` mm out, mm.
fn radius_tolerance(survey: &Survey, reading: f64) -> f64 {
    radius_change(survey.arch.span, survey.arch.rise, reading).abs()
}

pub(super) fn json(survey: &Survey, reading: f64) -> Value {
    let advice = &survey.advice;
    let mut value = json!({
        "as": name(&survey.line),
        "origin": [survey.origin.x, survey.origin.y],
        "residuals": survey.residuals.each,
        "worst_residual": survey.residuals.worst,
        "rms": survey.residuals.rms,
        "advice": advice.making.sentence(),
    });
    if let Some(quarter) = &advice.quarter {
        value["quarter"] = json!({
            "height": quarter.height,
            "share_of_rise": quarter.share_of_rise,
            "speaks_for": quarter.shapes,
            "compared": quarter.compared.iter().map(|likely| {
                json!({ "shape": likely.shape, "height": likely.height, "off": quarter.height - likely.height })
            }).collect::<Vec<_>>(),
        });
    }
    match &survey.line {
        Line::Circle(fit) => {
            let clearing = fit.clearing();
            value["centre"] = json!([fit.circle.centre.x, fit.circle.centre.y]);
            value["radius"] = json!(fit.circle.radius);
            value["radius_tolerance"] =
                json!({ "reading": reading, "moves": radius_tolerance(survey, reading) });
            if let Some(three) = &survey.by_three {
                value["by_springings_and_crown"] = json!({ "radius": three.radius, "worst": three.worst });
            }
            value["clearing"] = json!({ "radius": clearing.radius, "widest_gap": clearing.widest_gap });
        }
        Line::Ellipse(fit) => {
            value["centre"] = json!([fit.centre.x, fit.centre.y]);
            value["half_width"] = json!(fit.half_width);
            value["half_height"] = json!(fit.half_height);
        }
        Line::Curve => {}
    }
    value
}

/// Rows of the table.
pub(super) fn rows(rows: &mut Rows, survey: &Survey, reading: f64, shown: Shown) {
    let length = |mm| shown.length(mm);
    let mut put = |name: &str, value: String| rows.put(name, &value);
    put("laid through the points", name(&survey.line).to_owned());
    match &survey.line {
        Line::Circle(fit) => {
            let clearing = fit.clearing();
            let tolerance = radius_tolerance(survey, reading);
            put(
                "  its radius, give or take",
                format!("{tolerance:.1} mm, for {reading} mm in the rise: compare curves, not radii"),
            );
            if let Some(three) = &survey.by_three {
                put(
                    "  radius by springings and crown alone",
                    format!(
                        "{}, up to {:.1} mm off the points",
                        length(three.radius),
                        three.worst
                    ),
                );
            }
            put("  largest arc that clears all points", length(clearing.radius));
            put(
                "    widest gap to scribe",
                format!("{:.1} mm", clearing.widest_gap),
            );
        }
        Line::Ellipse(fit) => {
            put("  half its width", length(fit.half_width));
            put("  half its height", length(fit.half_height));
            put(
                "  its axis, above the springing",
                length(fit.centre.y - survey.origin.y),
            );
        }
        Line::Curve => {}
    }
    put(
        "  its middle, from the points' zero, across",
        length(survey.origin.x),
    );
    put("  its springing, above the points' zero", length(survey.origin.y));
    for (i, residual) in survey.residuals.each.iter().enumerate() {
        put(&format!("  point {} stands off", i + 1), off(*residual));
    }
    put("  worst", format!("{:.1} mm", survey.residuals.worst));
    put("  root mean square", format!("{:.2} mm", survey.residuals.rms));
    if let Some(quarter) = &survey.advice.quarter {
        let speaks = if quarter.shapes.is_empty() {
            "no common shape".to_owned()
        } else {
            quarter.shapes.join(" or ")
        };
        put(
            "  its quarter height speaks for",
            format!("{speaks} ({:.3} of the rise)", quarter.share_of_rise),
        );
    }
    put("  advice", survey.advice.making.sentence().to_owned());
    quarters(rows, survey, shown);
}

/// What each shape that it could be would stand at over the quarter of its span.
fn quarters(rows: &mut Rows, survey: &Survey, shown: Shown) {
    let Some(quarter) = &survey.advice.quarter else {
        return;
    };
    let line = |likely: &Likely| {
        let off = quarter.height - likely.height;
        let point = if likely.pointed { ", with a point" } else { "" };
        vec![
            format!("{}{point}", likely.shape),
            shown.length(likely.height),
            format!("{off:+.1} mm"),
        ]
    };
    let lines: Vec<_> = quarter.compared.iter().map(line).collect();
    let height = shown.length(quarter.height);
    rows.columns(
        &format!("quarter heights of what it could be; measured {height}"),
        &["", "would stand at", "measured differs by"],
        &lines,
    );
}

const fn name(line: &Line) -> &'static str {
    match line {
        Line::Circle(_) => "circle",
        Line::Ellipse(_) => "ellipse",
        Line::Curve => "curve",
    }
}

/// A residual as it is seen from inside the opening, to a tenth of a millimetre.
fn off(residual: f64) -> String {
    // What rounds to nothing has no side.
    if residual.abs() < 0.05 {
        "0.0 mm".to_owned()
    } else if residual > 0.0 {
        format!("{residual:.1} mm outside")
    } else {
        format!("{:.1} mm inside", -residual)
    }
}

#[cfg(test)]
mod tests {
    use crate::{Conduct, Plan, Shown, Trouble, plan};
    use cintre_job::{read_job, read_shop};
    use cintre_measure::Unit;

    /// An arch out of true by some millimetres, for a drawing.
    const WEAVING: &str = "title: Infirmary door, old head\nunits: mm\nshop: shop.yaml\narches:\n  door: { shape: measured, as: circle, points: \
         [[-750, 0], [-600, 121], [-450, 202], [-300, 252], [-150, 283], [0, 291], [150, 284], [300, 260], [450, 206], [600, 118], [750, 0]] }\n\
         make:\n  - pattern: { arch: door, piece: inside, stock: mdf, machine: fabricator }\n";

    const SHOP: &str = "stock: { mdf: { material: mdf, sheet: [2440, 1220], thickness: 12 } }\nmachines: { fabricator: { kind: drawing } }\n";

    fn planned(job: &str) -> Result<Plan, Trouble> {
        let shop = read_shop("shop.yaml", SHOP).expect("the shop has no fault");
        let job = read_job("job.yaml", job).expect("the job has no fault");
        let conduct = Conduct {
            say: &|_| {},
            stop: &|| false,
            read: &|name| Err(format!("{name} is not there")),
        };
        plan(&job, &shop, conduct)
    }

    #[test]
    fn a_weaving_arch_shows_its_residuals_and_the_caution() {
        let plan = planned(WEAVING).unwrap_or_else(|trouble| panic!("{trouble}"));
        let json = plan.figures_json();
        let measured = &json["arches"]["door"]["measured"];
        let number = |pointer: &str| {
            measured
                .pointer(pointer)
                .and_then(serde_json::Value::as_f64)
                .expect("a number")
        };
        let expected = [-1.0, 2.5, 2.3, -1.8, -2.3, -4.7, -1.6, 5.3, 5.0, -1.2, -2.5];
        for (i, want) in expected.iter().enumerate() {
            let got = number(&format!("/residuals/{i}"));
            assert!((got - want).abs() < 0.051, "point {i}: {got}");
        }
        for (pointer, want) in [
            ("/radius", 1105.51),
            ("/clearing/radius", 1100.81),
            ("/centre/0", 1.15),
            ("/centre/1", -809.81),
        ] {
            assert!(
                (number(pointer) - want).abs() < 0.006,
                "{pointer}: {}",
                number(pointer)
            );
        }
        assert!((number("/clearing/widest_gap") - 10.0).abs() < 0.05);
        let table = plan.figures_table(Shown::new(&plan, Unit::Millimetre));
        for words in [
            "5.3 mm outside",
            "4.7 mm inside",
            "segmental",
            "Measured on site",
            "a true line serves masonry",
        ] {
            assert!(table.contains(words), "`{words}` is missing in:\n{table}");
        }
        assert!(table.lines().all(|line| line.chars().count() <= 80), "{table}");
        assert!(
            plan.sheets[0]
                .cautions
                .iter()
                .any(|caution| caution.contains("may be moving"))
        );
    }

    #[test]
    fn points_that_give_no_arch_are_refused_where_they_stand() {
        for (from, to, words) in [
            (
                "[-150, 283], [0, 291]",
                "[0, 291], [-150, 283]",
                "point 6 does not follow point 5",
            ),
            ("[0, 291]", "[-150, 283]", "point 6 is point 5 again"),
        ] {
            let trouble = planned(&WEAVING.replace(from, to)).expect_err("they give no arch");
            let Trouble::Faults(faults) = &trouble else {
                panic!("{trouble}")
            };
            assert_eq!(faults[0].field, "arches.door.points");
            assert!(faults[0].what.contains(words), "{trouble}");
        }
    }
}
