//! What a template has besides its edge.

use super::super::{Edge, Input, Run};
use super::{BUSH_30, every_shape, input, made, ring};
use crate::Form;
use cintre_geometry::arch::Arch;
use cintre_geometry::{Outline, Point};
use cintre_work::{Caution, MarkKind};

fn all(each: impl Fn(&Arch, &Input, &Form)) {
    for arch in every_shape() {
        for run in [Run::Outside, Run::Inside] {
            let asked = input(&arch, run, BUSH_30);
            each(&arch, &asked, &made(&asked));
        }
        if arch.level_back.is_none() {
            let asked = ring(&arch, 95.0, BUSH_30);
            each(&arch, &asked, &made(&asked));
        }
    }
}

#[test]
fn each_is_one_sound_part_with_everything_in_its_wood() {
    all(|arch, _, form| {
        let part = &form.parts[0];
        assert!(part.outline.is_counter_clockwise(), "{}", arch.shape);
        assert!(
            part.openings
                .iter()
                .all(|opening| !opening.is_counter_clockwise())
        );
        let in_wood = |p: Point| {
            part.outline.signed_distance(p) < 0.0 && part.openings.iter().all(|o| o.signed_distance(p) > 0.0)
        };
        for bore in &part.bores {
            let edges: Vec<&Outline> = std::iter::once(&part.outline).chain(&part.openings).collect();
            let off = edges
                .iter()
                .map(|e| e.nearest(bore.centre).distance)
                .fold(f64::INFINITY, f64::min);
            assert!(
                in_wood(bore.centre) && off > bore.diameter / 2.0 + 5.0,
                "{}: {bore:?} {off}",
                arch.shape
            );
        }
        for (i, bore) in part.bores.iter().enumerate() {
            for other in &part.bores[..i] {
                let off = bore.centre.distance(other.centre) - (bore.diameter + other.diameter) / 2.0;
                assert!(off > 5.0, "{}: {off}", arch.shape);
            }
        }
        for mark in &part.marks {
            assert!(
                mark.path.pieces().all(|piece| in_wood(piece.point_at(0.5))),
                "{}",
                arch.shape
            );
        }
        assert_eq!(form.cautions, [Caution::HandRouter]);
    });
}

#[test]
fn each_says_what_guides_it_and_which_way_to_run() {
    all(|arch, _, form| {
        let letters = form.parts[0]
            .marks
            .iter()
            .filter(|mark| mark.kind == MarkKind::Text)
            .count();
        assert!(letters > 40, "{}: {letters} strokes of lettering", arch.shape);
        assert!(
            !form.notes.iter().any(|note| note.contains("by hand:")),
            "{}: {:?}",
            arch.shape,
            form.notes
        );
        assert!(
            form.notes
                .iter()
                .any(|note| note.contains("bush of 30 mm and a bit of 12.7 mm"))
        );
        assert!(
            form.notes
                .iter()
                .any(|note| note.contains("clockwise, against the turning of the bit"))
        );
    });
}

#[test]
fn work_lies_wholly_beside_the_road_of_the_base() {
    // From any point of the guided line the wood behind it carries half the base: the template is that wide, or it is all there is.
    all(|arch, asked, form| {
        if arch.closed || asked.edge.ring().is_some() || asked.run == Run::Outside {
            return;
        }
        let bounds = form.parts[0].outline.bounds();
        let line = arch.soffit.fit(super::FINE).path.bounds();
        let wanted = asked.room.base + asked.room.clamps;
        assert!(
            line.x0 - bounds.x0 >= wanted - 1e-6 && bounds.x1 - line.x1 >= wanted - 1e-6,
            "{}",
            arch.shape
        );
        assert!(bounds.y1 - line.y1 >= wanted - 1e-6, "{}", arch.shape);
    });
}

#[test]
fn no_notch_lies_in_an_edge_that_is_run_along() {
    all(|arch, asked, form| {
        let line = arch.soffit.fit(super::FINE).path;
        for piece in form.parts[0].outline.pieces() {
            let notch = piece.circle().is_some_and(|c| (c.radius - 4.0).abs() < 1e-9);
            if notch {
                let off = line.nearest(piece.point_at(0.5)).distance;
                assert!(off > asked.room.clamps, "{}: {off}", arch.shape);
            }
        }
    });
}

#[test]
fn stops_stand_below_the_springings_clear_of_the_bit() {
    all(|arch, asked, form| {
        let ring = asked.edge.ring().is_some();
        let stops: usize = form.list.iter().map(|item| item.count).sum();
        // Under a camber the template's edge is below the springing nearly as far as the middle: no stop has room.
        let none = arch.closed || ring || (arch.level_back.is_some() && asked.run == Run::Outside);
        assert_eq!(stops, if none { 0 } else { 2 }, "{}", arch.shape);
        if stops == 0 {
            return;
        }
        let line = arch.soffit.fit(super::FINE).path;
        for bore in form.parts[0].bores.iter().filter(|bore| bore.diameter < 10.0) {
            assert!(line.nearest(bore.centre).distance > 12.0, "{}", arch.shape);
            let springs = [line.start().y, line.end().y];
            assert!(
                springs.iter().any(|y| (bore.centre.y - y + 10.0).abs() < 1e-9),
                "{}",
                arch.shape
            );
        }
    });
}

#[test]
fn what_the_bush_runs_along_stays_clean() {
    all(|arch, asked, form| {
        let (Edge::Soffit(line) | Edge::Ring { inner: line, .. }) = &asked.edge else {
            panic!("{:?}", asked.edge)
        };
        let clean = &form.parts[0].clean;
        for piece in line.pieces().filter(|piece| piece.length() > 60.0) {
            let middle = piece.point_at(0.5);
            let off = clean.iter().map(|path| path.nearest(middle).distance);
            let off = off.fold(f64::INFINITY, f64::min);
            assert!(
                (off - asked.guide.setback()).abs() < 1e-6,
                "{}: {off}",
                arch.shape
            );
        }
    });
}
