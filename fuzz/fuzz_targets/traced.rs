//! No bytes make the reading of a traced outline panic, hang or fill the memory.
#![no_main]

use cintre_read::traced::{self, Wanted};

// A panic inside the DXF library is caught by the reader: only one that it lets through ends the run.
libfuzzer_sys::fuzz_target!(init: std::panic::set_hook(Box::new(|_| {})), |bytes: &[u8]| {
    let wanted = Wanted { layer: None, gap: 0.1, unit: None, tolerance: 0.02, size_meant: false };
    let file = if bytes.starts_with(b"<") { "outline.svg" } else { "outline.dxf" };
    let _ = traced::read(bytes, file, &wanted);
});
