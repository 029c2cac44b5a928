//! No text makes the reader of shop files panic, hang or fill the memory.
#![no_main]

libfuzzer_sys::fuzz_target!(|text: &str| {
    let _ = cintre_job::read_shop("shop.yaml", text);
});
