//! No bytes make the reader of PDF pages panic, hang or fill the memory.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let _ = cintre_read::pdf::read(bytes);
});
