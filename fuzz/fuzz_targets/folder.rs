//! No manifest, design and cut file, parted by NUL bytes, make the proof of a folder panic, hang or fill the memory.
#![no_main]

// A panic inside the DXF library is caught by the reader: only one that it lets through ends the run.
libfuzzer_sys::fuzz_target!(init: std::panic::set_hook(Box::new(|_| {})), |bytes: &[u8]| {
    let mut parts = bytes.splitn(3, |byte| *byte == 0);
    let mut text = || parts.next().map(|part| String::from_utf8_lossy(part).into_owned()).unwrap_or_default();
    let (manifest, design) = (text(), text());
    let file = text().into_bytes();
    let present = ["manifest.json", "design.json", "table/sheet-1.nc"];
    let _ = cintre_proof::prove_folder(&manifest, &design, &present, &|_| Some(file.clone()));
});
