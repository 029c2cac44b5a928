//! What lies where a folder is to be made: nothing of the user's is touched.

use cintre_tests::{Bench, NICHE, SHOP};
use std::fs::{create_dir, create_dir_all, remove_dir_all, remove_file};
use std::os::unix::fs::symlink;

/// `make` into `made` is refused in these words, and nothing on the bench is touched.
#[track_caller]
fn refused(bench: &Bench, words: &[&str]) {
    let before = bench.tree();
    bench
        .run(&["make", "job.yaml", "--out", "made"])
        .ended(6)
        .said(words);
    assert_eq!(bench.tree(), before);
}

#[test]
fn a_place_that_cannot_be_written() {
    let bench = Bench::of(NICHE, SHOP);
    bench.write("letter", "mine\n");
    let before = bench.tree();
    for out in ["letter/made", "letter/deep/made", "/dev/null/made"] {
        let ran = bench.run(&["make", "job.yaml", "--out", out]).ended(6);
        ran.said(&[out.split("/made").next().unwrap_or(out), "cannot be"]);
        assert_eq!(bench.tree(), before, "{out}");
    }
    bench
        .run(&["draw", "job.yaml", "--out", "letter"])
        .ended(6)
        .said(&["letter cannot be"]);
    assert_eq!(bench.tree(), before);
}

#[test]
fn a_file_in_the_place_of_the_folder() {
    let bench = Bench::of(NICHE, SHOP);
    bench.write("made", "mine\n");
    refused(&bench, &["made"]);
}

#[test]
fn a_folder_with_files_of_the_users() {
    let bench = Bench::of(NICHE, SHOP);
    bench.write("made/letter.txt", "mine\n");
    bench.write("made/table/notes", "mine too\n");
    refused(
        &bench,
        &[
            "made is not empty",
            "cintre did not make it",
            "nothing was touched",
        ],
    );
}

#[test]
fn a_made_folder_that_a_file_was_put_into() {
    let bench = Bench::of(NICHE, SHOP);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    bench.write("made/table/notes.txt", "mine\n");
    refused(
        &bench,
        &["table/notes.txt", "cintre did not make", "nothing was touched"],
    );
}

#[test]
fn a_link_in_the_place_of_the_folder_stays_a_link() {
    let bench = Bench::of(NICHE, SHOP);
    bench.write("stick/jobs/keep.txt", "mine\n");
    create_dir(bench.path("stick/made")).expect("a folder can be made");
    symlink("stick/made", bench.path("link")).expect("a link can be made");
    for out in ["link", "link/"] {
        bench.run(&["make", "job.yaml", "--out", out]).ended(0);
        let link = bench.path("link").symlink_metadata().expect("it is still there");
        assert!(link.is_symlink(), "the link was replaced");
        assert!(bench.path("stick/made/manifest.json").exists());
        bench.run(&["prove", "link"]).ended(0);
        let beside = bench
            .path("stick")
            .read_dir()
            .expect("a folder can be read")
            .count();
        assert_eq!(beside, 2, "something was left beside the folder");
    }
    symlink("nowhere", bench.path("astray")).expect("a link can be made");
    bench
        .run(&["make", "job.yaml", "--out", "astray"])
        .ended(6)
        .said(&["astray"]);
    assert!(bench.path("astray").is_symlink());
}

#[test]
fn an_empty_folder_of_the_users() {
    let bench = Bench::of(NICHE, SHOP);
    for inside in ["made/patterns", "made/deep/er"] {
        create_dir_all(bench.path(inside)).expect("a folder can be made");
    }
    refused(&bench, &["made"]);
    remove_dir_all(bench.path("made")).expect("a folder can be removed");
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    create_dir(bench.path("made/patterns")).expect("a folder can be made");
    refused(&bench, &["patterns"]);
}

#[test]
fn a_made_folder_that_files_were_taken_out_of_is_made_anew() {
    let bench = Bench::of(NICHE, SHOP);
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    let before = bench.tree();
    for file in bench.path("made/table").read_dir().expect("a folder can be read") {
        remove_file(file.expect("a folder can be read").path()).expect("a file can be removed");
    }
    bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
    assert!(bench.tree() == before);
}
