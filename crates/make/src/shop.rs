//! The shop's words turned into what the stages work with.

use cintre_geometry::{Outline, Point, Rect};
use cintre_job::{
    BitChange as JobChange, BitKind as JobBit, BitSpec, Cut as JobCut, DrawingFormat as JobFormat, Fault,
    Grain as JobGrain, LaserFile as JobLaserFile, LaserSpec, LiftSpec, MachineSpec, PenFile as JobPenFile,
    PenSpec, Relief as JobRelief, RouterSpec, Shop, Spacing, StockSpec, ZeroAt, ZeroHeight as JobHeight,
};
use cintre_measure::Unit as JobUnit;
use cintre_work::{
    Beam, BeamPower, BeamTabs, Bit, BitChange, BitKind, Cut, Dialect, DrawingFormat, DrawingMachine, Feeds,
    FileLayout, Holder, Laser, LaserFile, Lift, Machine, Pen, PenFile, Relief, Router, Sheet, Stock,
    StockGrain, TabRule, Trim, Unit, Zero, ZeroHeight,
};

/// The width of cutter for which a drawing leaves room between its parts, mm: what a fabricator will take is not known.
pub(crate) const UNKNOWN_CUTTER: f64 = 10.0;

/// The kinds of sheet that a stock may be cut from, with their names in the shop: what is left over of it first, then itself.
pub(crate) fn sheets_of<'s>(shop: &'s Shop, name: &str) -> Vec<(&'s str, Stock)> {
    let further = shop
        .stock
        .iter()
        .filter(|(_, spec)| spec.of.as_deref() == Some(name));
    let itself = shop.stock.iter().filter(|(n, _)| *n == name);
    further
        .chain(itself)
        .map(|(own, spec)| (own.as_str(), stock(name, spec)))
        .collect()
}

fn stock(name: &str, spec: &StockSpec) -> Stock {
    let corner = |&[x, y]: &[f64; 2]| Point::new(x, y);
    Stock {
        name: name.to_owned(),
        material: spec.material.clone(),
        size: (spec.sheet[0], spec.sheet[1]),
        thickness: spec.thickness,
        grain: match spec.grain {
            JobGrain::Long => StockGrain::Long,
            JobGrain::Short => StockGrain::Short,
            JobGrain::None => StockGrain::None,
        },
        sheets: spec.sheets.map(|n| n as usize),
        trim: Trim {
            left: spec.trim.left,
            right: spec.trim.right,
            bottom: spec.trim.bottom,
            top: spec.trim.top,
        },
        outline: spec.outline.as_ref().map(|corners| {
            let corners: Vec<Point> = corners.iter().map(corner).collect();
            Outline::polygon(&corners).oriented(true)
        }),
        keep_outs: spec
            .keep_outs
            .iter()
            .map(|&[x0, y0, x1, y1]| Outline::rectangle(Rect::new(x0, y0, x1, y1)))
            .collect(),
        alike: spec.alike,
    }
}

/// The bits that a machine holds; none for someone who takes a drawing.
pub(crate) fn bits(shop: &Shop, machine: &MachineSpec) -> Vec<Bit> {
    let MachineSpec::Router(router) = machine else {
        return Vec::new();
    };
    router
        .bits
        .iter()
        .filter_map(|name| shop.bits.get(name).map(|spec| bit(name, spec)))
        .collect()
}

fn bit(name: &str, spec: &BitSpec) -> Bit {
    Bit {
        name: name.to_owned(),
        kind: match spec.kind {
            JobBit::Straight => BitKind::Straight,
            JobBit::Drill => BitKind::Drill,
            JobBit::Vee(angle) => BitKind::Vee(angle),
            JobBit::Bearing(diameter) => BitKind::Bearing(diameter),
        },
        diameter: spec.diameter,
        flutes: spec.flutes,
        cutting_length: spec.cutting_length,
        plunges: spec.plunges,
        number: spec.number,
        holder: spec.holder.map(|holder| Holder {
            diameter: holder.diameter,
            above: holder.above,
        }),
        feeds: spec
            .feeds
            .iter()
            .map(|(material, f)| {
                (
                    material.clone(),
                    Feeds {
                        speed: f.speed,
                        feed: f.feed,
                        plunge: f.plunge,
                        depth: f.depth,
                    },
                )
            })
            .collect(),
    }
}

/// A machine whose programs have their zero here, in the sheet's frame.
pub(crate) fn machine(name: &str, spec: &MachineSpec, zero: (f64, f64)) -> Machine {
    match spec {
        MachineSpec::Router(spec) => Machine::Router(Box::new(router(name, spec, zero))),
        MachineSpec::Laser(spec) => Machine::Laser(Box::new(laser(name, spec, zero))),
        MachineSpec::Pen(spec) => Machine::Pen(Box::new(pen(name, spec, zero))),
        MachineSpec::Drawing(spec) => Machine::Drawing(DrawingMachine {
            name: name.to_owned(),
            format: match spec.format {
                JobFormat::DxfR12 => DrawingFormat::DxfR12,
                JobFormat::DxfR2010 => DrawingFormat::DxfR2010,
                JobFormat::Svg => DrawingFormat::Svg,
            },
            units: unit(spec.units),
            allowance: spec.allowance,
        }),
    }
}

/// The same as it finds a sheet of this stock: its bits keep off the clamps and knots of it too.
pub(crate) fn machine_at(name: &str, spec: &MachineSpec, zero: (f64, f64), stock: &Stock) -> Machine {
    let mut machine = machine(name, spec, zero);
    if let Machine::Router(router) = &mut machine {
        router
            .keep_outs
            .extend(stock.keep_outs.iter().map(Outline::bounds));
    }
    machine
}

/// Where on a sheet a machine's programs have their zero, in the sheet's frame, or why there is no such place.
pub(crate) fn zero(spec: &MachineSpec, sheet: &Sheet) -> Result<(f64, f64), Box<Fault>> {
    let at = match spec {
        MachineSpec::Router(router) => &router.zero_at,
        MachineSpec::Laser(laser) => &laser.zero_at,
        MachineSpec::Pen(pen) => &pen.zero_at,
        MachineSpec::Drawing(_) => return Ok((0.0, 0.0)),
    };
    let (length, width) = sheet.stock.size;
    match at {
        ZeroAt::NearLeft => Ok(sheet.stock.near_left().into()),
        ZeroAt::Middle => Ok((length / 2.0, width / 2.0)),
        ZeroAt::Bore(part) => {
            let bored = sheet.parts.iter().filter(|placed| !placed.part.bores.is_empty());
            let names: Vec<&str> = bored.clone().map(|placed| placed.name.as_str()).collect();
            let found = bored.clone().find(|placed| placed.name == *part);
            found
                .map(|placed| placed.part.bores[0].centre.into())
                .ok_or_else(|| {
                    let what = format!("{} has no part `{part}` with a bore", sheet.id);
                    let help = if names.is_empty() {
                        "no part on it has a bore: take near-left or middle".to_owned()
                    } else {
                        format!("parts with bores on it: {}", names.join(", "))
                    };
                    Box::new(spec.places().at("zero").fault(what, Some(help)))
                })
        }
    }
}

fn dialect(
    units: JobUnit,
    decimals: u32,
    (arcs, longest_radius): (bool, f64),
    zero: (f64, f64),
    (opening, closing): (&[String], &[String]),
) -> Dialect {
    Dialect {
        units: unit(units),
        decimals: decimals as usize,
        zero,
        arcs,
        longest_radius,
        opening_lines: opening.to_vec(),
        closing_lines: closing.to_vec(),
    }
}

fn laser(name: &str, spec: &LaserSpec, zero: (f64, f64)) -> Laser {
    let beam = |[power, speed]: [f64; 2]| Beam {
        power,
        feed: speed * 60.0,
    };
    let powers = spec.power.iter().map(|(material, b)| {
        let both = BeamPower {
            cut: beam(b.cut),
            mark: beam(b.mark),
        };
        (material.clone(), both)
    });
    Laser {
        name: name.to_owned(),
        bed: spec.bed.into(),
        kerf: spec.kerf.clone(),
        power: powers.collect(),
        full_power: spec.full_power,
        beam_on: spec.beam_on.clone(),
        beam_off: spec.beam_off.clone(),
        writes: match spec.writes {
            JobLaserFile::Gcode => LaserFile::Gcode,
            JobLaserFile::Svg => LaserFile::Svg,
            JobLaserFile::Dxf => LaserFile::Dxf,
            JobLaserFile::Both => LaserFile::Both,
        },
        dialect: dialect(
            spec.units,
            spec.decimals,
            (spec.arcs, spec.longest_radius),
            zero,
            (&spec.opening_lines, &spec.closing_lines),
        ),
        least_bridge: spec.least_bridge,
        tabs: spec.tabs.map(|tabs| BeamTabs {
            width: tabs.width,
            under: tabs.under,
            every: tabs.every,
        }),
        rapid: spec.rapid,
        acceleration: spec.acceleration,
        cornering: spec.cornering,
    }
}

fn pen(name: &str, spec: &PenSpec, zero: (f64, f64)) -> Pen {
    Pen {
        name: name.to_owned(),
        bed: spec.bed.into(),
        width: spec.pen,
        writes: match spec.writes {
            JobPenFile::HpGl => PenFile::HpGl,
            JobPenFile::Gcode => PenFile::Gcode,
        },
        dialect: dialect(
            spec.units,
            spec.decimals,
            (spec.arcs, spec.longest_radius),
            zero,
            (&spec.opening_lines, &spec.closing_lines),
        ),
        lift: match &spec.lift {
            LiftSpec::Height { up, down } => Lift::Height { up: *up, down: *down },
            LiftSpec::Words { up, down } => Lift::Words {
                up: up.clone(),
                down: down.clone(),
            },
        },
        feed: spec.feed,
        rapid: spec.rapid,
        acceleration: spec.acceleration,
        cornering: spec.cornering,
        delay: spec.pen_delay,
        steps_per_mm: spec.steps_per_mm,
        farthest: spec.farthest,
    }
}

fn router(name: &str, spec: &RouterSpec, zero: (f64, f64)) -> Router {
    Router {
        name: name.to_owned(),
        bed: (spec.bed[0], spec.bed[1]),
        travel_z: spec.travel_z,
        bit_change: match spec.bit_change {
            JobChange::File => BitChange::File,
            JobChange::Pause => BitChange::Pause,
            JobChange::M6 => BitChange::M6,
        },
        safe_height: spec.safe_height,
        zero: Zero {
            at: zero,
            height: match spec.zero_height {
                JobHeight::StockFace => ZeroHeight::StockFace,
                JobHeight::StockBack => ZeroHeight::StockBack,
            },
        },
        units: unit(spec.units),
        decimals: spec.decimals as usize,
        arcs: spec.arcs,
        longest_radius: spec.longest_radius,
        longest_arc: spec.longest_arc,
        layout: FileLayout {
            numbered: spec.layout.numbered,
            longest_line: spec.layout.longest_line as usize,
            percent: spec.layout.percent,
        },
        extraction: spec.extraction.clone(),
        park: spec.park.map(|[x, y]| Point::new(x, y)),
        speeds: (spec.speeds[0], spec.speeds[1]),
        spindle_delay: spec.spindle_delay,
        through: spec.through,
        tabs: spec.tabs.map(|t| TabRule {
            width: t.width,
            height: t.height,
            every: t.every,
            ramped: t.ramped,
        }),
        cut: match spec.cut {
            JobCut::Climb => Cut::Climb,
            JobCut::Conventional => Cut::Conventional,
        },
        ramp: spec.ramp,
        finish: spec.finish,
        leave_web: spec.leave_web,
        relief: match spec.relief {
            JobRelief::None => Relief::None,
            JobRelief::Bisector => Relief::Bisector,
            JobRelief::LongSide => Relief::LongSide,
        },
        mark_depth: spec.mark_depth,
        rapid: spec.rapid,
        acceleration: spec.acceleration,
        cornering: spec.cornering,
        opening_lines: spec.opening_lines.clone(),
        closing_lines: spec.closing_lines.clone(),
        keep_outs: spec
            .keep_outs
            .iter()
            .map(|&[x0, y0, x1, y1]| Rect::new(x0, y0, x1, y1))
            .collect(),
    }
}

fn unit(unit: JobUnit) -> Unit {
    match unit {
        JobUnit::Millimetre => Unit::Millimetre,
        JobUnit::Inch => Unit::Inch,
    }
}

/// How far parts stand apart when the widest bit that cuts them is `cutter` mm.
pub(crate) fn spacing(rule: Spacing, cutter: f64) -> f64 {
    match rule {
        Spacing::Margin(margin) => cutter + margin,
        Spacing::Length(length) => length,
    }
}
