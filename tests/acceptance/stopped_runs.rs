//! A run that is stopped, whenever it is, leaves the old folder whole or the new one.

use cintre_tests::{Bench, NICHE, SHOP, Tree, spoilt, tree};
use std::process::{Child, Stdio};
use std::thread::sleep;
use std::time::Duration;

const STEP: Duration = Duration::from_millis(1);

/// Longer than any run here takes, in steps.
const PATIENCE: usize = 60_000;

/// Two jobs on one bench, and what each makes.
struct Trial {
    bench: Bench,
    low: Tree,
    high: Tree,
}

impl Trial {
    fn new() -> Self {
        let bench = Bench::with("low.yaml", NICHE);
        bench.write("high.yaml", spoilt(NICHE, "rise: 90", "rise: 110"));
        bench.write("shop.yaml", SHOP);
        let reference = |job: &str| {
            bench.run(&["make", job, "--out", "reference"]).ended(0);
            tree(&bench.path("reference"))
        };
        let (low, high) = (reference("low.yaml"), reference("high.yaml"));
        assert_ne!(low, high);
        Self { bench, low, high }
    }

    fn begin(&self, job: &str) -> Child {
        let mut command = self.bench.command(&["make", job, "--out", "made"]);
        let command = command.stdout(Stdio::null()).stderr(Stdio::null());
        command.spawn().expect("the command starts")
    }

    /// What stopped or running runs have beside the folder.
    fn drafts(&self) -> Vec<String> {
        let entries = self.bench.path("").read_dir().expect("the bench can be read");
        entries
            .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
            .filter(|name| name.starts_with(".made.cintre-"))
            .collect()
    }

    /// The folder is one of the two, whole, and passes.
    #[track_caller]
    fn is_whole(&self, when: &str) {
        let made = tree(&self.bench.path("made"));
        assert!(made == self.low || made == self.high, "{when}: {:?}", made.keys());
        self.bench.run(&["prove", "made", "--quiet"]).ended(0);
    }

    /// The next run makes its folder and leaves nothing else.
    #[track_caller]
    fn recovers(&self, when: &str) {
        self.bench
            .run(&["make", "low.yaml", "--out", "made", "--quiet"])
            .ended(0);
        assert_eq!(self.drafts(), [""; 0], "{when}");
        assert!(tree(&self.bench.path("made")) == self.low, "{when}");
    }
}

fn kill(mut run: Child) {
    run.kill().expect("a run can be killed");
    run.wait().expect("a killed run ends");
}

#[test]
fn a_run_killed_after_any_time_leaves_a_whole_folder() {
    let trial = Trial::new();
    trial.recovers("at first");
    for step in 0..8 {
        let when = format!("after {} ms", step * 40);
        let run = trial.begin("high.yaml");
        sleep(STEP * step * 40);
        kill(run);
        trial.is_whole(&when);
        trial.recovers(&when);
    }
}

#[test]
fn a_run_killed_while_it_writes_leaves_a_whole_folder() {
    let trial = Trial::new();
    trial.recovers("at first");
    let mut stopped_half_way = 0;
    for step in [0, 1, 2, 4, 8, 16, 32, 64] {
        let mut run = trial.begin("high.yaml");
        let waited = (0..PATIENCE).find(|_| {
            sleep(STEP);
            !trial.drafts().is_empty() || run.try_wait().expect("a run can be asked").is_some()
        });
        assert!(waited.is_some(), "the run neither writes nor ends");
        sleep(STEP * step);
        kill(run);
        stopped_half_way += trial.drafts().len();
        let when = format!("{step} ms after it began to write");
        trial.is_whole(&when);
        trial.recovers(&when);
    }
    assert!(stopped_half_way > 0, "no run was stopped while it wrote");
}

#[test]
fn a_first_run_that_is_killed_leaves_a_whole_folder_or_none() {
    let trial = Trial::new();
    for step in 0..4 {
        let run = trial.begin("high.yaml");
        sleep(STEP * step * 90);
        kill(run);
        if trial.bench.path("made").exists() {
            trial.is_whole("a first run");
            std::fs::remove_dir_all(trial.bench.path("made")).expect("a folder can be removed");
        }
    }
    trial.recovers("after first runs");
}

#[test]
fn two_runs_at_once_do_not_harm_one_another() {
    let trial = Trial::new();
    trial.recovers("at first");
    for _ in 0..2 {
        let runs = [
            trial.begin("high.yaml"),
            trial.begin("low.yaml"),
            trial.begin("high.yaml"),
        ];
        for mut run in runs {
            let status = run.wait().expect("a run ends");
            assert_eq!(status.code(), Some(0));
        }
        trial.is_whole("after three at once");
        assert_eq!(trial.drafts(), [""; 0]);
    }
}
