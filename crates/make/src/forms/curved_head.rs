//! Curved heads, as the job asks for them.

use super::{Asked, fault, ring, usable, widest_cutter};
use crate::shop::bits;
use cintre_forms::{Form, curved_head};
use cintre_job::{CurvedHead, Fault, Grain, HeadJoint, HeadPiece, MachineSpec, StockSpec};
use cintre_work::BitKind;

pub(super) fn form(asked: Asked<'_>, asks: &CurvedHead) -> Result<Form, Fault> {
    let Asked {
        spec,
        job,
        shop,
        arch,
        stock,
    } = asked;
    if arch.arch.level_back.is_some() {
        let what = "the back of a camber arch is level: a head of one width cannot follow it";
        let help =
            "take a segmental arch of the same camber for the head, or a `pattern` of the camber".to_owned();
        return Err(spec.places.at("arch").fault(what, Some(help)));
    }
    room_for_a_bit(asked)?;
    let designed = curved_head::curved_head(&curved_head::Input {
        arch: arch.name.clone(),
        soffit: arch.fit.path.clone(),
        fit_error: arch.fit.worst_error,
        piece: match asks.piece {
            HeadPiece::Head => curved_head::Piece::Head,
            HeadPiece::JambHead { depth } => curved_head::Piece::JambHead { depth },
            HeadPiece::Casing { true_mitre, legs } => curved_head::Piece::Casing { true_mitre, legs },
        },
        width: asks
            .width
            .map_or_else(|| ring(asked, "piece").map(|(depth, _)| depth), Ok)?,
        // What lines the soffit has its edge.
        reveal: match (asks.piece, &arch.reveal) {
            (HeadPiece::JambHead { .. }, _) | (_, None) => 0.0,
            (_, Some((reveal, _))) => *reveal,
        },
        boards: boards(&spec.stock, stock),
        layers: asks.layers.map(|n| n as usize),
        segments: asks.segments.map(|n| n as usize),
        cross_grain: asks.cross_grain,
        joint: asks.joint.map(joint),
        least_corner: widest_cutter(spec, shop) / 2.0,
        glue_up: glue_up(asked, asks)?,
    });
    designed.map_err(|error| {
        if error.field() == "ring" && asks.width.is_some() {
            return spec.places.at("width").fault(error.to_string(), None);
        }
        fault(spec, job, &error)
    })
}

const fn joint(asked: HeadJoint) -> curved_head::Joint {
    match asked {
        HeadJoint::Spline => curved_head::Joint::Spline,
        HeadJoint::Dowel => curved_head::Joint::Dowel,
        HeadJoint::Finger => curved_head::Joint::Finger,
        HeadJoint::Butt => curved_head::Joint::Butt,
    }
}

/// The stock as boards: a sheet is a wide one, its grain along its first size or its second.
fn boards(name: &str, stock: &StockSpec) -> curved_head::Boards {
    let [first, second] = stock.sheet;
    let [off_first, off_second] = stock.trim.taken();
    curved_head::Boards {
        stock: name.to_owned(),
        thickness: stock.thickness,
        size: if stock.grain == Grain::Short {
            (second, first)
        } else {
            (first, second)
        },
        // What comes off a board's width is taken to come off its length too.
        clean_up: off_first.max(off_second),
        count: stock.sheets.map(|n| n as usize),
    }
}

/// A router's bit runs beside the segments, over what clean-up leaves of a board.
fn room_for_a_bit(asked: Asked<'_>) -> Result<(), Fault> {
    let Asked {
        spec, shop, stock, ..
    } = asked;
    let Some(machine @ MachineSpec::Router(_)) = shop.machines.get(&spec.machine) else {
        return Ok(());
    };
    let held = bits(shop, machine);
    let straight = held.iter().filter(|bit| bit.kind == BitKind::Straight);
    let Some(least) = straight.map(|bit| bit.diameter).min_by(f64::total_cmp) else {
        return Ok(());
    };
    let beside = stock.trim.left;
    if !stock.board || beside >= least {
        return Ok(());
    }
    let what = format!(
        "a router's bit of {least} mm runs along both edges of a board, and clean-up leaves it {beside} mm there"
    );
    let help = format!("with this bit, a clean-up of {} mm or more", 2.0 * least);
    Err(stock.places.at("clean-up").fault(what, Some(help)))
}

fn glue_up(asked: Asked<'_>, asks: &CurvedHead) -> Result<Option<curved_head::GlueUp>, Fault> {
    let Some(name) = &asks.glue_up else {
        return Ok(None);
    };
    let Asked { spec, shop, .. } = asked;
    let place = spec.places.at("glue-up");
    let stock = shop.stock.get(name);
    let stock = stock.ok_or_else(|| place.fault("the shop has no such stock", None))?;
    Ok(Some(curved_head::GlueUp {
        stock: name.clone(),
        thickness: stock.thickness,
        sheet: usable(stock),
        stop: asks.stop,
    }))
}
