//! The fit takes few arcs: near the least that any smooth chain needs.

#[path = "../benches/common/curves.rs"]
mod curves;

use cintre_geometry::fit;

#[test]
fn no_curve_takes_many_more_arcs_than_it_must() {
    for (name, curve) in curves::ten() {
        for tolerance in [0.1, 0.02, 0.001] {
            let fitted = fit(curve.as_ref(), tolerance);
            let arcs = u32::try_from(fitted.path.pieces().len()).expect("few");
            let least = curves::least_arcs(curve.as_ref(), tolerance);
            let most = 1.5 * least + 2.0;
            assert!(fitted.worst_error <= tolerance, "{name}: {}", fitted.worst_error);
            assert!(
                f64::from(arcs) <= most,
                "{name} at {tolerance}: {arcs} arcs, {least:.1} at the least"
            );
        }
    }
}
