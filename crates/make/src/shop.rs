//! The shop's words turned into what the stages work with.

use cintre_geometry::Rect;
use cintre_job::{
    BitKind as JobBit, BitSpec, Cut as JobCut, DrawingFormat as JobFormat, Grain as JobGrain, MachineSpec,
    Relief as JobRelief, RouterSpec, Shop, Spacing, StockSpec, ZeroAt, ZeroHeight as JobHeight,
};
use cintre_measure::Unit as JobUnit;
use cintre_work::{
    Bit, BitChange, BitKind, Cut, DrawingFormat, DrawingMachine, Feeds, Machine, Relief, Router, Stock,
    StockGrain, TabRule, Unit, Zero, ZeroHeight,
};

/// The width of cutter for which a drawing leaves room between its parts, mm: what a fabricator will take is not known.
pub(crate) const UNKNOWN_CUTTER: f64 = 10.0;

pub(crate) fn stock(name: &str, spec: &StockSpec) -> Stock {
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
        trim: spec.trim,
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

/// A machine as it stands to a sheet of this size, which its zero may depend on.
pub(crate) fn machine(name: &str, spec: &MachineSpec, size: (f64, f64)) -> Machine {
    match spec {
        MachineSpec::Router(spec) => Machine::Router(Box::new(router(name, spec, size))),
        MachineSpec::Drawing(spec) => Machine::Drawing(DrawingMachine {
            name: name.to_owned(),
            format: match spec.format {
                JobFormat::DxfR12 => DrawingFormat::DxfR12,
                JobFormat::DxfR2010 => DrawingFormat::DxfR2010,
                JobFormat::Svg => DrawingFormat::Svg,
            },
            units: unit(spec.units),
        }),
    }
}

fn router(name: &str, spec: &RouterSpec, size: (f64, f64)) -> Router {
    Router {
        name: name.to_owned(),
        bed: (spec.bed[0], spec.bed[1]),
        travel_z: spec.travel_z,
        bit_change: BitChange::File,
        safe_height: spec.safe_height,
        zero: Zero {
            at: match spec.zero_at {
                ZeroAt::NearLeft => (0.0, 0.0),
                ZeroAt::Middle => (size.0 / 2.0, size.1 / 2.0),
            },
            height: match spec.zero_height {
                JobHeight::StockFace => ZeroHeight::StockFace,
                JobHeight::StockBack => ZeroHeight::StockBack,
            },
        },
        units: unit(spec.units),
        decimals: spec.decimals as usize,
        arcs: spec.arcs,
        longest_radius: spec.longest_radius,
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
