//! The arches that a span and a rise alone may stand for, by the usual construction of each shape.

use super::{
    Arch, Catenary, Elliptical, FiveCentred, FiveCentredBy, FourCentred, FourCentredBy, Horseshoe, Parabolic,
    Pointed, Segmental, Semicircular, Stilted, ThreeCentred, ThreeCentredBy,
};

/// A rise that differs from half the span by less than this share of it makes half a circle.
const HALF: f64 = 1e-9;

/// Every arch that has this span and this rise, mm, and needs no other size; what cannot have them is left out.
///
/// All are upright, so the height at a quarter of the span tells most of them apart.
pub fn of_span_and_rise(span: f64, rise: f64) -> Vec<Arch> {
    let half = span / 2.0;
    let segment = Segmental {
        span: Some(span),
        rise: Some(rise),
        radius: None,
    };
    let one_arc = if (rise - half).abs() <= HALF * half {
        Semicircular { span }.arch()
    } else if rise > half {
        Horseshoe { span, rise }.arch()
    } else {
        segment.arch()
    };
    let stilted = (rise > half * (1.0 + HALF)).then(|| {
        Stilted {
            span,
            stilt: rise - half,
            arc_rise: None,
        }
        .arch()
    });
    let pointed = Pointed {
        span: Some(span),
        rise: Some(rise),
        radius: None,
    };
    let others = [
        Elliptical { span, rise }.arch(),
        ThreeCentred {
            span,
            rise,
            by: ThreeCentredBy::LeastRatio,
        }
        .arch(),
        FiveCentred {
            span,
            rise,
            by: FiveCentredBy::MeanRadius,
        }
        .arch(),
        FourCentred {
            span,
            rise,
            by: FourCentredBy::TwoThirds,
        }
        .arch(),
        pointed.arch(),
        Parabolic { span, rise }.arch(),
        Catenary { span, rise }.arch(),
    ];
    std::iter::once(one_arc)
        .chain(stilted)
        .chain(others)
        .flatten()
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shapes(span: f64, rise: f64) -> Vec<&'static str> {
        of_span_and_rise(span, rise)
            .iter()
            .map(|arch| arch.shape)
            .collect()
    }

    #[test]
    fn what_cannot_have_the_rise_is_left_out() {
        let low = shapes(1220.0, 305.0);
        assert!(
            low.contains(&"segmental") && low.contains(&"three-centred") && low.contains(&"four-centred"),
            "{low:?}"
        );
        assert!(
            !low.contains(&"pointed") && !low.contains(&"horseshoe"),
            "{low:?}"
        );
        let high = shapes(1000.0, 700.0);
        assert!(
            high.contains(&"pointed") && high.contains(&"horseshoe") && high.contains(&"stilted"),
            "{high:?}"
        );
        assert!(
            !high.contains(&"segmental") && !high.contains(&"three-centred"),
            "{high:?}"
        );
        let half = shapes(900.0, 450.0);
        assert!(
            half.contains(&"semicircular") && !half.contains(&"stilted"),
            "{half:?}"
        );
    }

    #[test]
    fn the_quarter_height_parts_a_segment_from_half_an_ellipse() {
        let arches = of_span_and_rise(1220.0, 305.0);
        let find = |shape: &str| arches.iter().find(|arch| arch.shape == shape).unwrap();
        let (segment, ellipse) = (find("segmental"), find("elliptical"));
        let (low, high) = (segment.figures(), ellipse.figures());
        assert!((segment.figures().centres[0].radius - 762.50).abs() < 0.005);
        assert!((low.quarter_height - 241.34).abs() < 0.005 && (high.quarter_height - 264.14).abs() < 0.02);
        assert!(
            (high.developed_length - 1477.49).abs() < 0.005 && (low.developed_length - 1414.13).abs() < 0.005
        );
        // Near the springing they stand far apart.
        let apart = |x: f64| ellipse.soffit.height_at(x).unwrap() - segment.soffit.height_at(x).unwrap();
        let most = (0..6100).map(|i| (apart(f64::from(i) / 10.0), f64::from(i) / 10.0));
        let (most, x) = most.max_by(|a, b| a.0.total_cmp(&b.0)).unwrap();
        assert!(
            (most - 61.3).abs() < 0.05 && (x - 550.0).abs() < 10.0,
            "{most} at {x}"
        );
    }
}
