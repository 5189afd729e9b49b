//! Certified values of the NIST Statistical Reference Datasets, linear regression. Norris and Longley stand in
//! tests/published/formulas/statistics.csv.

use super::*;

fn powers(x: &[f64], degree: i32) -> Vec<Vec<f64>> {
    (0..=degree).map(|power| x.iter().map(|x| x.powi(power)).collect()).collect()
}

fn assert_digits(name: &str, ours: f64, certified: f64, relative: f64) {
    let room = relative * certified.abs();
    assert!((ours - certified).abs() <= room, "{name}: {ours}, certified {certified}");
}

fn assert_fit(columns: &[Vec<f64>], y: &[f64], certified: &[(f64, f64)], residual: f64, relative: f64) {
    let fit = least_squares(columns, y).unwrap();
    let errors = fit.standard_errors.unwrap();
    for (j, (coefficient, error)) in certified.iter().enumerate() {
        assert_digits("coefficient", fit.coefficients[j], *coefficient, relative);
        assert_digits("its error", errors[j], *error, relative);
    }
    assert_digits("residual", fit.residual.unwrap(), residual, relative);
}

const PONTIUS_Y: [f64; 40] = [
    0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146, 1.20001,
    1.30822, 1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844, 0.11052, 0.22018,
    0.32939, 0.43886, 0.54798, 0.65739, 0.76596, 0.87474, 0.98300, 1.09150, 1.20004, 1.30818, 1.41613,
    1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829,
];

#[test]
fn pontius() {
    let x: Vec<f64> = (0..40).map(|i| f64::from(i % 20 + 1) * 150_000.0).collect();
    let certified = [
        (0.673565789473684e-3, 0.107938612033077e-3),
        (0.732059160401003e-6, 0.157817399981659e-9),
        (-0.316081871345029e-14, 0.486652849992036e-16),
    ];
    assert_fit(&powers(&x, 2), &PONTIUS_Y, &certified, 0.205177424076185e-3, 1e-9);
}

#[test]
fn lines_through_the_origin() {
    let x: Vec<f64> = (60..=70).map(f64::from).collect();
    let y: Vec<f64> = (130..=140).map(f64::from).collect();
    assert_fit(&[x], &y, &[(2.07438016528926, 0.165289256198347e-1)], 3.56753034006338, 1e-12);
    let certified = [(0.727272727272727, 0.420827318078432e-1)];
    assert_fit(&[vec![4.0, 5.0, 6.0]], &[3.0, 4.0, 4.0], &certified, 0.369274472937998, 1e-12);
}

#[test]
fn wampler_without_error() {
    let x: Vec<f64> = (0..=20).map(f64::from).collect();
    for factor in [1.0, 0.1] {
        let coefficient = |power: i32| f64::powi(factor, power);
        let y: Vec<f64> =
            x.iter().map(|x| (0..=5).map(|power| coefficient(power) * x.powi(power)).sum()).collect();
        let fit = least_squares(&powers(&x, 5), &y).unwrap();
        for (power, ours) in fit.coefficients.iter().enumerate() {
            assert_digits("coefficient", *ours, coefficient(power as i32), 1e-8);
        }
    }
}

#[test]
fn wampler_with_error() {
    let x: Vec<f64> = (0..=20).map(f64::from).collect();
    let y = [
        760.0, -2042.0, 2111.0, -1684.0, 3888.0, 1858.0, 11379.0, 17560.0, 39287.0, 64382.0, 113159.0,
        175108.0, 273291.0, 400186.0, 581243.0, 811568.0, 1121004.0, 1506550.0, 2002767.0, 2611612.0,
        3369180.0,
    ];
    let errors = [
        2152.32624678170,
        2363.55173469681,
        779.343524331583,
        101.475507550350,
        5.64566512170752,
        0.112324854679312,
    ];
    let certified = errors.map(|error| (1.0, error));
    assert_fit(&powers(&x, 5), &y, &certified, 2360.14502379268, 1e-8);
}

#[test]
fn a_column_that_is_a_sum_of_others_is_refused() {
    let x: Vec<f64> = (0..5).map(f64::from).collect();
    let twice: Vec<f64> = x.iter().map(|x| 2.0 * x).collect();
    assert_eq!(least_squares(&[vec![1.0; 5], x.clone(), twice], &x), None);
    assert!(Line::through(&[(1.0, 2.0), (1.0, 3.0), (1.0, 4.0)]).is_none());
    assert!(Line::through(&[(1.0, 2.0), (2.0, 3.0)]).is_none(), "two readings have no spread about a line");
}
