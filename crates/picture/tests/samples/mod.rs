//! Arches and sheets of an imagined walled garden.

use cintre_geometry::{Affine, Outline, Path, Piece, Point, Rect, Vec2, Vertex};
use cintre_lettering::{Anchor, strokes};
use cintre_picture::{
    ArchDrawing, AssemblyDrawing, Centre, CentreDrawing, Dimension, Lengths, PartsDrawing, SheetDrawing, Side,
};
use cintre_work::{
    Bore, Depth, Grain, Mark, MarkKind, Move, Part, Placed, Program, Recess, Sheet, Stock, StockGrain, Tab,
    To, Trim, Unit,
};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_3, PI};

pub(crate) const TITLE: &str = "Walled garden, north gate";

pub(crate) fn lengths() -> Lengths<'static> {
    Lengths {
        unit: Unit::Millimetre,
        write: &|mm| format!("{} mm", (mm * 10.0).round() / 10.0),
    }
}

fn dimension(from: (f64, f64), to: (f64, f64), side: Side, text: &str) -> Dimension {
    Dimension {
        from: from.into(),
        to: to.into(),
        side,
        text: text.to_owned(),
    }
}

fn centre(at: Point, radius: f64, name: &str) -> Centre {
    Centre {
        at,
        radius,
        name: name.to_owned(),
        text: format!("R {radius:.1}"),
    }
}

/// An arc about `c` between two bearings, from the left over the top to the right.
fn over(c: Point, radius: f64, from: f64, to: f64) -> Piece {
    Piece::arc(c, c + Vec2::from_angle(from) * radius, to - from)
}

pub(crate) fn arch_drawing(name: &str, soffit: Path) -> ArchDrawing<'static> {
    ArchDrawing {
        title: TITLE.to_owned(),
        name: name.to_owned(),
        soffit,
        extrados: None,
        edge: None,
        joints: Vec::new(),
        centres: Vec::new(),
        springing: None,
        axis: Some(0.0),
        dimensions: Vec::new(),
        points: Vec::new(),
        notes: Vec::new(),
        lengths: lengths(),
    }
}

/// Segmental, 1220 by 260, with a ring of 215 and its joints.
pub(crate) fn segmental() -> ArchDrawing<'static> {
    let c = Point::new(0.0, -585.577);
    let r = 845.577;
    let half = (610.0_f64 / r).asin();
    let ring = |radius| over(c, radius, FRAC_PI_2 + half, FRAC_PI_2 - half);
    let joints = (1..17)
        .map(|i| FRAC_PI_2 + half - 2.0 * half * f64::from(i) / 17.0)
        .map(|a| Path::polyline(&[c + Vec2::from_angle(a) * r, c + Vec2::from_angle(a) * (r + 215.0)]));
    ArchDrawing {
        extrados: Some(Path::from_pieces(&[ring(r + 215.0)])),
        joints: joints.collect(),
        centres: vec![centre(c, r, "C1")],
        springing: Some((Point::new(-610.0, 0.0), Point::new(610.0, 0.0))),
        dimensions: vec![
            dimension((-610.0, 0.0), (610.0, 0.0), Side::Below, "span 1220"),
            dimension((610.0, 0.0), (0.0, 260.0), Side::Right, "rise 260"),
            dimension((0.0, 260.0), (0.0, 475.0), Side::Left, "ring 215"),
        ],
        notes: vec![
            "Centering: this is geometry only. Strength, props, thrust and the time to strike belong to local code and a licensed engineer.".into(),
        ],
        ..arch_drawing("gate: segmental arch", Path::from_pieces(&[ring(r)]))
    }
}

/// A very flat segmental arch, whose centre lies far below.
pub(crate) fn flat() -> ArchDrawing<'static> {
    let r = (600.0_f64 * 600.0 + 24.0 * 24.0) / 48.0;
    let c = Point::new(0.0, 24.0 - r);
    let half = (600.0 / r).asin();
    let ring = |radius| over(c, radius, FRAC_PI_2 + half, FRAC_PI_2 - half);
    ArchDrawing {
        extrados: Some(Path::from_pieces(&[ring(r + 225.0)])),
        centres: vec![centre(c, r, "C1")],
        springing: Some((Point::new(-600.0, 0.0), Point::new(600.0, 0.0))),
        dimensions: vec![
            dimension((-600.0, 0.0), (600.0, 0.0), Side::Below, "span 1200"),
            dimension((600.0, 0.0), (0.0, 24.0), Side::Right, "rise 24"),
        ],
        ..arch_drawing("lodge window: segmental arch", Path::from_pieces(&[ring(r)]))
    }
}

/// Three centres, the middle one far below, and the outer ones on the springing line.
pub(crate) fn three_centred() -> ArchDrawing<'static> {
    let (span, haunch) = (1800.0, 380.0);
    let side = Point::new(span / 2.0 - haunch, 0.0);
    // The middle arc joins where the haunches have turned by 60 degrees.
    let middle = Point::new(0.0, -side.x * FRAC_PI_3.tan());
    let radius = haunch + side.x / FRAC_PI_3.cos();
    let pieces = [
        over(Point::new(-side.x, 0.0), haunch, PI, PI - FRAC_PI_3),
        over(middle, radius, PI - FRAC_PI_3, FRAC_PI_3),
        over(side, haunch, FRAC_PI_3, 0.0),
    ];
    let rise = middle.y + radius;
    ArchDrawing {
        centres: vec![
            centre(Point::new(-side.x, 0.0), haunch, "C1"),
            centre(middle, radius, "C2"),
            centre(side, haunch, "C3"),
        ],
        springing: Some((Point::new(-900.0, 0.0), Point::new(900.0, 0.0))),
        dimensions: vec![
            dimension((-900.0, 0.0), (900.0, 0.0), Side::Below, "span 1800"),
            dimension((900.0, 0.0), (0.0, rise), Side::Right, &format!("rise {rise:.1}")),
        ],
        ..arch_drawing("coach house: three-centred arch", Path::from_pieces(&pieces))
    }
}

/// A lancet, struck from centres outside its span.
pub(crate) fn lancet() -> ArchDrawing<'static> {
    let (span, radius) = (800.0_f64, 1100.0_f64);
    let away = radius - span / 2.0;
    let turn = (away / radius).acos();
    let pieces = [
        over(Point::new(away, 0.0), radius, PI, PI - turn),
        over(Point::new(-away, 0.0), radius, turn, 0.0),
    ];
    let rise = radius * turn.sin();
    ArchDrawing {
        centres: vec![
            centre(Point::new(away, 0.0), radius, "C1"),
            centre(Point::new(-away, 0.0), radius, "C2"),
        ],
        springing: Some((Point::new(-400.0, 0.0), Point::new(400.0, 0.0))),
        dimensions: vec![
            dimension((-400.0, 0.0), (400.0, 0.0), Side::Below, "span 800"),
            dimension((400.0, 0.0), (0.0, rise), Side::Right, &format!("rise {rise:.1}")),
        ],
        ..arch_drawing("chapel: pointed arch", Path::from_pieces(&pieces))
    }
}

/// An ogee: the upper arcs are struck from above.
pub(crate) fn ogee() -> ArchDrawing<'static> {
    // Lower arcs of radius 500 turn by 70 degrees, the upper ones bend back until the middle line.
    let (lower, turn) = (500.0, 70.0_f64.to_radians());
    let c = Point::new(-100.0, 0.0);
    let first = over(c, lower, PI, PI - turn);
    let out = first.end - c;
    let upper = (0.0 - first.end.x) / 0.30;
    let top = first.end + out / lower * upper;
    let back = Piece::arc(top, first.end, 0.36);
    let mirror = Affine::new([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
    let half = Path::from_pieces(&[first, back]).transformed(Affine::translate((-back.end.x, 0.0)));
    let other = half.transformed(mirror).reversed();
    let shift = Vec2::new(-back.end.x, 0.0);
    let flip = |p: Point| mirror * p;
    ArchDrawing {
        centres: vec![
            centre(c + shift, lower, "C1"),
            centre(flip(c + shift), lower, "C2"),
            centre(top + shift, upper, "C3"),
            centre(flip(top + shift), upper, "C4"),
        ],
        springing: Some((half.start(), other.end())),
        ..arch_drawing("summer house: ogee arch", half.then(&other))
    }
}

/// A round window.
pub(crate) fn round() -> ArchDrawing<'static> {
    let circle = |r| Outline::circle(Point::ZERO, r).opened_at(0, 0.0);
    ArchDrawing {
        extrados: Some(circle(415.0)),
        centres: vec![centre(Point::ZERO, 300.0, "C1")],
        dimensions: vec![dimension(
            (-300.0, 0.0),
            (300.0, 0.0),
            Side::Below,
            "diameter 600",
        )],
        ..arch_drawing("gable window: round", circle(300.0))
    }
}

/// A rib of the gate's centering: 1170 by 242, with a hand hole, two bores and its marks.
pub(crate) fn rib() -> Part {
    let c = Point::new(0.0, -585.577);
    let r = 827.577_f64;
    let foot = (r * r - 585.577 * 585.577).sqrt();
    let bow = Piece::arc_between(c, Point::new(foot, 0.0), Point::new(-foot, 0.0), true);
    let outline = Outline::closing(&Path::from_pieces(&[bow]));
    let hole = Outline::rectangle(Rect::new(-60.0, 40.0, 60.0, 80.0)).reversed();
    let bore = |x| Bore {
        centre: Point::new(x, 60.0),
        diameter: 13.0,
        depth: Depth::Through,
    };
    let line = |a: (f64, f64), b: (f64, f64)| Mark {
        path: Path::polyline(&[a.into(), b.into()]),
        kind: MarkKind::Line,
    };
    let letters = strokes("gate rib", 16.0, Point::new(-400.0, 20.0), Anchor::Start)
        .expect("the name is in letters of the face");
    let text = letters.into_iter().map(|path| Mark {
        path,
        kind: MarkKind::Text,
    });
    Part {
        name: "gate rib".into(),
        outline,
        openings: vec![hole],
        bores: vec![bore(-300.0), bore(300.0)],
        recesses: Vec::new(),
        marks: std::iter::once(line((0.0, 100.0), (0.0, 230.0)))
            .chain(text)
            .collect(),
        clean: Vec::new(),
        stock: "ply18".into(),
        thickness: 17.6,
        grain: Grain::Along(0.0),
        count: 4,
        fit_error: 0.0,
    }
}

fn plain(name: &str, outline: Outline) -> Part {
    Part {
        name: name.into(),
        outline,
        openings: Vec::new(),
        bores: Vec::new(),
        recesses: Vec::new(),
        marks: Vec::new(),
        clean: Vec::new(),
        stock: "ply18".into(),
        thickness: 17.6,
        grain: Grain::Free,
        count: 1,
        fit_error: 0.0,
    }
}

/// A template: a band of 120 along the soffit, which its own middle is no part of.
pub(crate) fn template() -> Part {
    let c = Point::new(0.0, -585.577);
    let half = (610.0_f64 / 845.577).asin();
    let ring = |radius| over(c, radius, FRAC_PI_2 + half, FRAC_PI_2 - half);
    let (inner, outer) = (ring(845.577), ring(965.577));
    let band = [
        inner,
        Piece::line(inner.end, outer.end),
        outer.reversed(),
        Piece::line(outer.start, inner.start),
    ];
    let mut part = plain(
        "gate soffit template",
        Outline::closing(&Path::from_pieces(&band)).oriented(true),
    );
    part.recesses.push(Recess {
        outline: Outline::rectangle(Rect::new(-30.0, 300.0, 30.0, 340.0)).reversed(),
        islands: Vec::new(),
        depth: 6.0,
    });
    part
}

/// A narrow strut that stands upright on the sheet.
pub(crate) fn strut() -> Part {
    plain("strut", Outline::rectangle(Rect::new(0.0, 0.0, 60.0, 560.0)))
}

fn place(name: &str, part: &Part, x: f64, y: f64) -> Placed {
    let b = part.outline.bounds();
    Placed {
        name: name.into(),
        part: part.transformed(Affine::translate((x - b.x0, y - b.y0))),
    }
}

pub(crate) fn sheet() -> Sheet {
    let (rib, template, strut) = (rib(), template(), strut());
    Sheet {
        id: "sheet-1".into(),
        stock: Stock {
            name: "ply18".into(),
            material: "plywood".into(),
            size: (2440.0, 1220.0),
            thickness: 17.6,
            grain: StockGrain::Long,
            sheets: Some(6),
            trim: Trim::even(8.0),
            outline: None,
            keep_outs: vec![],
            alike: false,
        },
        parts: vec![
            place("gate rib 1", &rib, 14.0, 14.0),
            place("gate rib 2", &rib, 1200.0, 14.0),
            place("gate rib 3", &rib, 14.0, 270.0),
            place("gate rib 4", &rib, 1200.0, 270.0),
            place("gate soffit template", &template, 14.0, 530.0),
            place("strut 1", &strut, 1450.0, 560.0),
            place("strut 2", &strut, 1530.0, 560.0),
        ],
    }
}

/// A small upright sheet crowded with wedges and bored plates, one of them too narrow for its name.
pub(crate) fn crowded() -> Sheet {
    let mut parts = Vec::new();
    for row in 0..12_u32 {
        for column in 0..5_u32 {
            let (x, y) = (12.0 + 118.0 * f64::from(column), 12.0 + 98.0 * f64::from(row));
            let mut part = plain("plate", Outline::rectangle(Rect::new(0.0, 0.0, 106.0, 86.0)));
            for (u, v) in [(12.0, 12.0), (94.0, 12.0), (94.0, 74.0), (12.0, 74.0)] {
                part.bores.push(Bore {
                    centre: Point::new(u, v),
                    diameter: 8.0,
                    depth: Depth::Through,
                });
            }
            parts.push(place(&format!("plate {}", row * 5 + column + 1), &part, x, y));
        }
    }
    let sliver = plain(
        "lagging spacer",
        Outline::rectangle(Rect::new(0.0, 0.0, 4.0, 300.0)),
    );
    parts.push(place("lagging spacer", &sliver, 602.0, 400.0));
    let stock = Stock {
        name: "left-over".into(),
        size: (610.0, 1220.0),
        grain: StockGrain::Short,
        ..sheet().stock
    };
    Sheet {
        id: "sheet-2".into(),
        stock,
        parts,
    }
}

/// A road of a sort round every part in two passes, and a hole drilled at every bore.
pub(crate) fn programs(sheet: &Sheet) -> Vec<Program> {
    let rapid = |end, z| Move {
        end,
        z,
        to: To::Rapid,
    };
    let mut mill = Vec::new();
    let mut drill = Vec::new();
    for placed in &sheet.parts {
        let openings = placed.part.openings.iter().map(|o| (o, -3.2));
        for (edge, off) in openings.chain([(&placed.part.outline, 3.2)]) {
            let road = moved_out(edge, off);
            let start = road.vertices()[0].point;
            mill.push(rapid(start, 12.0));
            for z in [-9.0, -17.9] {
                mill.push(Move {
                    end: start,
                    z,
                    to: To::Straight { feed: 900.0 },
                });
                mill.extend(road.pieces().map(|p| Move {
                    end: p.end,
                    z,
                    to: To::Arc {
                        bulge: p.bulge,
                        feed: 3200.0,
                    },
                }));
            }
            mill.push(rapid(start, 12.0));
        }
        for bore in &placed.part.bores {
            drill.push(rapid(bore.centre, 12.0));
            drill.push(Move {
                end: bore.centre,
                z: -18.0,
                to: To::Straight { feed: 300.0 },
            });
            drill.push(rapid(bore.centre, 12.0));
        }
    }
    let program = |bit: &str, diameter, moves| Program {
        sheet: sheet.id.clone(),
        bit: bit.into(),
        diameter,
        number: None,
        speed: 16000.0,
        moves,
    };
    vec![program("drill-8", 8.0, drill), program("straight-6", 6.35, mill)]
}

/// The outline grown about the middle of its box, near enough a bit's road to look at.
fn moved_out(edge: &Outline, off: f64) -> Outline {
    let b = edge.bounds();
    let c = b.center().to_vec2();
    let grown = 1.0 + 2.0 * off / b.height();
    edge.transformed(Affine::translate(c) * Affine::scale(grown.clamp(0.9, 1.01)) * Affine::translate(-c))
}

pub(crate) fn tabs(sheet: &Sheet) -> Vec<Tab> {
    sheet
        .parts
        .iter()
        .flat_map(|placed| {
            placed.part.outline.pieces().flat_map(|piece| {
                [0.25, 0.75].map(|at| Tab {
                    flank: 0.0,
                    part: placed.name.clone(),
                    at: piece.point_at(at),
                    width: 8.0,
                    height: 5.0,
                })
            })
        })
        .collect()
}

pub(crate) fn sheet_drawing<'a>(
    sheet: &'a Sheet,
    programs: &'a [Program],
    tabs: &'a [Tab],
    notes: &'a [String],
) -> SheetDrawing<'a> {
    SheetDrawing {
        title: TITLE,
        sheet,
        programs,
        tabs,
        zero: Some(Point::ZERO),
        kept_out: &[],
        faults: &[],
        notes,
        lengths: lengths(),
    }
}

pub(crate) fn parts_drawing(parts: &[Part]) -> PartsDrawing<'_> {
    PartsDrawing {
        title: TITLE,
        name: "gate: centering and template",
        parts,
        notes: &[],
        lengths: lengths(),
    }
}

/// All samples by name.
/// The segmental arch on a centre of two ribs, each two pieces before one, a post on their faces.
pub(crate) fn assembly_drawing() -> AssemblyDrawing<'static> {
    let arch = segmental();
    let c = Point::new(0.0, -585.577);
    let (r, half) = (827.577_f64, 0.78_f64);
    let back = |from: f64, to: f64| over(c, r, FRAC_PI_2 + from, FRAC_PI_2 + to);
    let part = |name: &str, outline: Outline| Part {
        name: name.to_owned(),
        outline,
        bores: Vec::new(),
        openings: Vec::new(),
        marks: Vec::new(),
        ..rib()
    };
    let under = |from: f64, to: f64| {
        let bow = back(from, to);
        let foot = |p: Point| Point::new(p.x, -100.0);
        let down = Piece::line(bow.end, foot(bow.end));
        let along = Piece::line(down.end, foot(bow.start));
        Outline::closing(&Path::from_pieces(&[bow, down, along])).reversed()
    };
    let post = Outline::rectangle(Rect::new(-60.0, -100.0, 60.0, 230.0));
    AssemblyDrawing {
        title: TITLE,
        name: "gate: centering",
        soffit: arch.soffit.clone(),
        extrados: arch.extrados.clone(),
        joints: arch.joints.clone(),
        halves: vec![CentreDrawing {
            layers: [
                vec![
                    part("rib A1", under(half, 0.0)),
                    part("rib A2", under(0.0, -half)),
                ],
                vec![part("rib B1", under(half, -half))],
                vec![part("king post", post)],
            ],
            boards: Vec::new(),
            back: Path::from_pieces(&[back(half, -half)]),
            lagging: 18.0,
            ribs: vec![(6.0, 42.0), (183.0, 219.0)],
            level: -100.0,
            wedges: 56.5,
        }],
        wall: 225.0,
        inside_faces: 6.0,
        dimensions: arch.dimensions.clone(),
        notes: &[],
        lengths: lengths(),
    }
}

pub(crate) fn pictures() -> Vec<(&'static str, String)> {
    let sheet = sheet();
    let (programs, tabs) = (programs(&sheet), tabs(&sheet));
    let crowded = crowded();
    let crowded_programs = self::programs(&crowded);
    let notes = ["The proof speaks of shape only; the person at the machine decides.".to_owned()];
    let small = Outline::new(vec![
        Vertex {
            point: Point::ZERO,
            bulge: 0.0,
        },
        Vertex {
            point: Point::new(90.0, 0.0),
            bulge: 1.0,
        },
        Vertex {
            point: Point::new(90.0, 40.0),
            bulge: 0.0,
        },
        Vertex {
            point: Point::new(0.0, 40.0),
            bulge: 0.0,
        },
    ]);
    let parts = [rib(), template(), strut(), plain("wedge", small)];
    vec![
        ("segmental", cintre_picture::arch(&segmental())),
        ("flat", cintre_picture::arch(&flat())),
        ("three-centred", cintre_picture::arch(&three_centred())),
        ("lancet", cintre_picture::arch(&lancet())),
        ("ogee", cintre_picture::arch(&ogee())),
        ("round", cintre_picture::arch(&round())),
        (
            "sheet",
            cintre_picture::sheet(&sheet_drawing(&sheet, &programs, &tabs, &notes)),
        ),
        (
            "crowded",
            cintre_picture::sheet(&sheet_drawing(&crowded, &crowded_programs, &[], &notes)),
        ),
        ("parts", cintre_picture::parts(&parts_drawing(&parts))),
        ("assembly", cintre_picture::assembly(&assembly_drawing())),
    ]
}
