use super::*;

/// What linear red, green and blue become for an eye that lacks the long, the middle or the short cones, after Machado,
/// Oliveira and Fernandes (2009), and for one that lacks none.
const EYES: [[[f64; 3]; 3]; 4] = [
    [
        [0.152_286, 1.052_583, -0.204_868],
        [0.114_503, 0.786_281, 0.099_216],
        [-0.003_882, -0.048_116, 1.051_998],
    ],
    [
        [0.367_322, 0.860_646, -0.227_968],
        [0.280_085, 0.672_501, 0.047_413],
        [-0.011_820, 0.042_940, 0.968_881],
    ],
    [
        [1.255_528, -0.076_749, -0.178_779],
        [-0.078_411, 0.930_809, 0.147_602],
        [0.004_733, 0.691_367, 0.303_900],
    ],
    [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
];

/// Linear red, green and blue of a colour.
fn linear(colour: &str) -> [f64; 3] {
    [1, 3, 5].map(|at| {
        let c = f64::from(u8::from_str_radix(&colour[at..at + 2], 16).unwrap()) / 255.0;
        if c <= 0.040_45 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    })
}

fn times(matrix: &[[f64; 3]; 3], v: [f64; 3]) -> [f64; 3] {
    matrix.map(|row| row.iter().zip(v).map(|(m, c)| m * c).sum::<f64>().clamp(0.0, 1.0))
}

/// CIE L*a*b* from linear red, green and blue under daylight D65.
fn lab(rgb: [f64; 3]) -> [f64; 3] {
    let to_xyz = [
        [0.4124 / 0.9505, 0.3576 / 0.9505, 0.1805 / 0.9505],
        [0.2126, 0.7152, 0.0722],
        [0.0193 / 1.089, 0.1192 / 1.089, 0.9505 / 1.089],
    ];
    let [x, y, z] = times(&to_xyz, rgb).map(|t| {
        if t > 0.008_856 {
            t.cbrt()
        } else {
            7.787 * t + 16.0 / 116.0
        }
    });
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

#[test]
fn line_colours_keep_apart_for_every_eye() {
    let colours = [INK, GREY, BLUE, RUST, UMBER, PAPER];
    for eye in &EYES {
        let seen = colours.map(|c| lab(times(eye, linear(c))));
        for (i, a) in seen.iter().enumerate() {
            for (b, other) in seen[i + 1..].iter().zip(&colours[i + 1..]) {
                let apart = a.iter().zip(b).map(|(p, q)| (p - q).powi(2)).sum::<f64>().sqrt();
                assert!(apart > 18.0, "{} and {other} are {apart} apart", colours[i]);
            }
        }
    }
}
