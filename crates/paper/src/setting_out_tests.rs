//! The setting-out sheet as a whole.

use super::*;

fn arch(rows: Vec<Row>) -> ArchSheet {
    ArchSheet {
        heading: "gate: segmental arch".into(),
        drawing: vec![full(
            Ink::Page,
            vec![line(Point::ZERO, Point::new(100.0, 60.0))],
            FRAME,
        )],
        height: 60.0,
        scale: "1 : 10".into(),
        rows,
        checks: vec![("span".into(), "1220.0 mm".into())],
    }
}

fn sheet(arches: Vec<ArchSheet>) -> SettingOut {
    SettingOut {
        title: "Walled garden".into(),
        cautions: vec!["Centering: this is geometry only.".into(); 8],
        notes: vec!["Read on a rule of 1/32.".into()],
        arches,
    }
}

#[test]
fn an_arch_a_page_after_the_cautions_and_all_within_a4_and_letter() {
    let figures = (0..30).map(|i| Row::Figure(format!("radius {i}"), "845.5 mm + 0.1".into()));
    let document = setting_out(&sheet(vec![
        arch(figures.clone().collect()),
        arch(figures.collect()),
    ]));
    assert_eq!(document.pages.len(), 3);
    let inner = Rect::new(12.0, 12.0, 210.0 - 12.0, 279.4 - 12.0).inflate(0.05, 1.0);
    for page in &document.pages {
        assert!(page.size.0 <= 210.0 && page.size.1 <= 279.4);
        for line in page.strokes.iter().flat_map(|stroke| &stroke.lines) {
            assert!(inner.union(line.bounds()) == inner, "{:?}", line.bounds());
        }
    }
    assert_eq!(document.notes.len(), 9);
}

#[test]
fn a_long_table_runs_on_and_loses_no_line() {
    let strokes = |count: usize| {
        let lines = vec![vec!["1".to_owned(), "1".into(), "1".into()]; count];
        let heads = vec!["x".to_owned(), "y".into(), "z".into()];
        let document = setting_out(&sheet(vec![arch(vec![Row::Table(
            "heights".into(),
            heads,
            lines,
        )])]));
        let all = document
            .pages
            .iter()
            .map(|page| page.strokes.len())
            .sum::<usize>();
        (document.pages.len(), all)
    };
    let ((pages, few), (more_pages, many)) = (strokes(300), strokes(500));
    assert!(pages > 2 && more_pages > pages);
    // Three cells and a rule for every line more, and at most a head, two headings and a foot for every page.
    let more = many - few - 4 * 200;
    assert!(more <= 6 * (more_pages - pages), "{more}");
}
