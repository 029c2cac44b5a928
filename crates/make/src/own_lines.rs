//! Lines of a controller's own, and the words that light a beam or lift a pen.

use crate::trouble::Trouble;
use cintre_job::{Fault, Job, LiftSpec, MachineSpec, Shop};

/// Refuses lines of a controller's own that would move the tool or change what numbers mean: no proof could pass them.
pub(crate) fn check_own_lines(job: &Job, shop: &Shop) -> Result<(), Trouble> {
    let used = shop
        .machines
        .iter()
        .filter(|(name, _)| job.make.iter().any(|spec| spec.machine == **name));
    let faults: Vec<Fault> = used.flat_map(|(_, machine)| faults(machine)).collect();
    if faults.is_empty() {
        Ok(())
    } else {
        Err(Trouble::Faults(faults))
    }
}

fn faults(machine: &MachineSpec) -> Vec<Fault> {
    let places = machine.places();
    let (opening, closing) = match machine {
        MachineSpec::Router(router) => (&router.opening_lines, &router.closing_lines),
        MachineSpec::Laser(laser) => (&laser.opening_lines, &laser.closing_lines),
        MachineSpec::Pen(pen) => (&pen.opening_lines, &pen.closing_lines),
        MachineSpec::Drawing(_) => return Vec::new(),
    };
    let lines = opening
        .iter()
        .map(|line| ("opening-lines", line))
        .chain(closing.iter().map(|line| ("closing-lines", line)));
    let own = lines
        .filter(|(_, line)| !cintre_read::gcode::is_harmless(line))
        .map(|(field, line)| {
            let what =
                format!("`{line}` moves the tool, or changes what its numbers mean, or is no line of words");
            let help = "G54 to G59, G61, G64 and M words above M6 may stand here, and notes in brackets";
            places.at(field).fault(what, Some(help.to_owned()))
        });
    let switches = switches(machine)
        .into_iter()
        .filter(|(_, word)| !switches_only(word));
    let switches = switches.map(|(field, word)| {
        let what = format!("`{word}` does more than switch something on or off");
        let help = "M3, M4, M5 with their S, or one of the maker's own M words above M6";
        places.at(field).fault(what, Some(help.to_owned()))
    });
    own.chain(switches).collect()
}

/// The fields that switch a beam or a pen.
fn switches(machine: &MachineSpec) -> Vec<(&'static str, &str)> {
    match machine {
        MachineSpec::Laser(laser) => vec![("beam-on", &laser.beam_on), ("beam-off", &laser.beam_off)],
        MachineSpec::Pen(pen) => match &pen.lift {
            LiftSpec::Height { .. } => Vec::new(),
            LiftSpec::Words { up, down } => vec![("pen-up", up), ("pen-down", down)],
        },
        MachineSpec::Router(_) | MachineSpec::Drawing(_) => Vec::new(),
    }
}

/// Whether a line only switches the spindle's output or something of the maker's own.
fn switches_only(line: &str) -> bool {
    let mut words = line.split_whitespace();
    let spindle = matches!(words.next(), Some("M3" | "M4" | "M5"));
    let speed = |word: &str| {
        word.strip_prefix('S')
            .is_some_and(|s| s.parse::<f64>().is_ok_and(|s| s >= 0.0))
    };
    spindle && words.all(speed) || cintre_read::gcode::is_harmless(line)
}

#[cfg(test)]
mod tests {
    use super::switches_only;

    #[test]
    fn a_beam_is_lit_by_a_switch_and_by_nothing_that_moves() {
        for word in ["M3", "M4", "M5", "M3 S1000", "M106 P1", "M8"] {
            assert!(switches_only(word), "{word}");
        }
        for word in ["G1 X0", "M3 X5", "M30", "M2", "beam", "", "M3 S-1"] {
            assert!(!switches_only(word), "{word}");
        }
    }
}
