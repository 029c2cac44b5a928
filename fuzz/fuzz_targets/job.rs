//! No text makes the reader of job files panic, hang or fill the memory.
#![no_main]

libfuzzer_sys::fuzz_target!(|text: &str| {
    let _ = cintre_job::read_job("job.yaml", text);
});
