//! Each command does what its help says of it, and nothing else.

use cintre_tests::{Bench, NICHE, SHOP};
use std::io;
use std::process::Stdio;

fn bench() -> Bench {
    Bench::of(NICHE, SHOP)
}

/// The commands that `cintre --help` lists.
fn commands() -> Vec<String> {
    let help = Bench::default().run(&["--help"]).ended(0).out;
    let list = help.split("Commands:\n").nth(1).expect("help lists the commands");
    let names = list.lines().take_while(|line| !line.is_empty());
    names
        .filter_map(|line| line.strip_prefix("  ")?.split(' ').next())
        // A description that runs on stands farther in.
        .filter(|&name| !name.is_empty() && name != "help")
        .map(str::to_owned)
        .collect()
}

#[test]
fn start_plants_a_job_that_can_be_made() {
    let bench = Bench::default();
    let ran = bench
        .run(&["start", "door"])
        .ended(0)
        .said(&["cintre make door/job.yaml"]);
    assert_eq!(ran.out, "door/job.yaml\ndoor/shop.yaml\n");
    bench.run(&["check", "door/job.yaml"]).ended(0);
    bench.run(&["make", "door/job.yaml", "--out", "made"]).ended(0);
    bench.run(&["prove", "made"]).ended(0);
}

#[test]
fn start_never_overwrites() {
    for name in ["job.yaml", "shop.yaml"] {
        let bench = Bench::with(&format!("door/{name}"), "mine\n");
        let before = bench.tree();
        bench
            .run(&["start", "door"])
            .ended(6)
            .said(&[name, "is there already"]);
        assert_eq!(bench.tree(), before);
    }
}

#[test]
fn make_takes_the_job_files_name_where_no_folder_is_named() {
    let bench = bench();
    bench.run(&["make", "job.yaml"]).ended(0);
    bench.run(&["prove", "out/job"]).ended(0);
}

#[test]
fn draw_writes_svg_that_is_xml_with_real_sizes() {
    let bench = bench();
    let ran = bench.run(&["draw", "job.yaml", "--out", "pictures"]).ended(0);
    let files: Vec<&str> = ran.out.lines().collect();
    assert!(files.contains(&"pictures/arch-niche.svg") && files.contains(&"pictures/sheet-1.svg"));
    for file in files {
        let text = bench.text(file);
        let document = roxmltree::Document::parse(&text).expect("a picture is XML");
        let root = document.root_element();
        assert_eq!(root.tag_name().name(), "svg");
        assert!(
            root.attribute("width").is_some_and(|width| width.ends_with("mm")),
            "{file}"
        );
        assert!(
            document
                .descendants()
                .any(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "path")))
        );
    }
}

#[test]
fn draw_writes_png_as_wide_as_was_asked() {
    let bench = bench();
    let ran = bench
        .run(&[
            "draw", "job.yaml", "--out", "pictures", "--format", "png", "--width", "321",
        ])
        .ended(0);
    let tree = bench.tree();
    assert!(ran.out.lines().count() >= 2, "{}", ran.out);
    for file in ran.out.lines() {
        let bytes = &tree[file];
        assert_eq!(bytes[..8], *b"\x89PNG\r\n\x1a\n", "{file}");
        assert_eq!(bytes[12..16], *b"IHDR", "{file}");
        assert_eq!(bytes[16..20], 321_u32.to_be_bytes(), "{file}");
    }
}

#[test]
fn schemas_are_json_that_says_which_kind_of_schema_it_is() {
    for of in ["job", "shop"] {
        let schema = Bench::default().run(&["schema", of]).ended(0).json();
        assert!(
            schema["$schema"]
                .as_str()
                .is_some_and(|kind| kind.contains("json-schema.org"))
        );
        assert_eq!(schema["additionalProperties"], false);
        let known = if of == "job" { "arches" } else { "machines" };
        assert!(schema["properties"][known].is_object(), "{of}");
    }
}

#[test]
fn check_figures_and_schema_write_nothing() {
    let bench = bench();
    let before = bench.tree();
    for args in [["check", "job.yaml"], ["figures", "job.yaml"], ["schema", "job"]] {
        assert!(!bench.run(&args).ended(0).out.is_empty());
        assert_eq!(bench.tree(), before, "{args:?}");
    }
}

#[test]
fn quiet_leaves_the_talk_out_and_keeps_results_and_faults() {
    let bench = bench();
    for args in [
        &["check", "job.yaml"][..],
        &["make", "job.yaml"],
        &["prove", "out/job"],
    ] {
        let loud = bench.run(args).ended(0);
        let quiet = bench.run(&[args, &["--quiet"]].concat()).ended(0);
        assert!(!loud.err.is_empty(), "{args:?}");
        assert_eq!((quiet.err.as_str(), quiet.out), ("", loud.out), "{args:?}");
    }
    bench
        .run(&["check", "none.yaml", "--quiet"])
        .ended(6)
        .said(&["none.yaml"]);
}

#[test]
fn results_as_json_are_json() {
    let bench = bench();
    let check = bench.run(&["check", "job.yaml", "--json"]).ended(0).json();
    assert_eq!((&check["pieces"], &check["sheets"]), (&1.into(), &1.into()));
    let make = bench
        .run(&["make", "job.yaml", "--out", "made", "--json"])
        .ended(0)
        .json();
    assert_eq!(make["passed"], true);
    let prove = bench.run(&["prove", "made", "--json"]).ended(0).json();
    assert_eq!(prove["files"], make["files"]);
    bench.write("made/added.txt", "");
    let prove = bench.run(&["prove", "made", "--json"]).ended(5).json();
    assert_eq!(prove["passed"], false);
    assert!(prove["findings"].to_string().contains("added.txt"), "{prove}");
}

#[test]
fn faults_as_json_tell_place_and_field() {
    let bench = bench();
    bench.edit("job.yaml", |text| text.replace("rise: 90", "rise: 0"));
    let faults = bench.run(&["check", "job.yaml", "--json"]).ended(3).json();
    let fault = &faults["faults"][0];
    assert_eq!(fault["file"], "job.yaml", "{fault}");
    assert_eq!(fault["line"], 5, "{fault}");
    assert_eq!(fault["field"], "arches.niche.rise", "{fault}");
}

#[test]
fn a_reader_who_goes_away_is_no_failure() {
    let bench = bench();
    for args in [["schema", "job"], ["figures", "job.yaml"], ["check", "job.yaml"]] {
        let (reader, writer) = io::pipe().expect("a pipe can be made");
        drop(reader);
        let status = bench
            .command(&args)
            .stdout(writer)
            .stderr(Stdio::null())
            .status()
            .expect("the command starts");
        assert_eq!(status.code(), Some(0), "{args:?}");
    }
}

#[test]
fn each_command_shows_an_example_in_its_help() {
    let commands = commands();
    assert_eq!(
        commands,
        ["start", "check", "figures", "draw", "make", "prove", "schema"]
    );
    for command in commands {
        let help = Bench::default().run(&[&command, "--help"]).ended(0).out;
        let example = format!("  cintre {command} ");
        assert!(help.lines().any(|line| line.starts_with(&example)), "{help}");
    }
}

#[test]
fn words_that_are_not_known_are_a_wrong_command_line() {
    let bench = bench();
    let before = bench.tree();
    for args in [
        &["check", "job.yaml", "--sideways"][..],
        &["cut", "job.yaml"],
        &["make"],
        &["draw", "job.yaml", "--format", "gif"],
        &["draw", "job.yaml", "--width", "0"],
        &["figures", "job.yaml", "--units", "ell"],
        &[],
    ] {
        assert!(!bench.run(args).ended(2).err.is_empty(), "{args:?}");
        assert_eq!(bench.tree(), before, "{args:?}");
    }
    bench
        .run(&["check", "job.yaml", "--sideways"])
        .said(&["--sideways"]);
}
