//! No bytes make the reader of HP-GL panic, hang or fill the memory, and what it reads is finite.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    for step in cintre_read::hpgl::read(bytes, 40.0).moves {
        assert!(step.to.at.is_finite() && step.to.z.is_finite());
    }
});
