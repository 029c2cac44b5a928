//! No bytes make the reader of programs panic, hang or fill the memory, and what it reads is finite.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    for step in cintre_read::gcode::read(bytes, 12.0, &["G64 P0.01".to_owned()]).moves {
        assert!(step.bulge.is_finite() && step.to.at.is_finite() && step.to.z.is_finite());
    }
});
