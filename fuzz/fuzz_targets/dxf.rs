//! No bytes make the reader of DXF panic, hang or fill the memory.
#![no_main]

use cintre_read::{LengthUnit, dxf};

// A panic inside the DXF library is caught by the reader: only one that it lets through ends the run.
libfuzzer_sys::fuzz_target!(init: std::panic::set_hook(Box::new(|_| {})), |bytes: &[u8]| {
    let _ = dxf::read(bytes, LengthUnit::Millimetre);
});
