//! Water and pipe friction against general reference libraries; printed values stand in `published/formulas/`.
//! The versions of the libraries are pinned in `python/requirements.txt`.

use calc::engine::quantity::{
    Density, Flow, FlowCoefficient, Length, Temperature, celsius, kinds::FLOW, litres_per_minute, metres,
    millimetres,
};
use calc::trade::water::pipe::{
    friction_factor, friction_factor_swamee_jain_1976, loss_coefficient, mean_velocity, reynolds_number,
    velocity_pressure,
};
use calc::trade::water::{density, viscosity, viscosity_iapws_2008};

/// Where the expected values of a table come from, and how near ours have to be.
struct Table {
    source: &'static str,
    tolerance: f64,
}

impl Table {
    /// Half a unit of the last printed digit, or what the table says.
    #[track_caller]
    fn check(&self, what: &str, ours: f64, expected: f64) {
        let Table { source, tolerance } = self;
        assert!(
            (ours - expected).abs() <= *tolerance,
            "{what}: {ours}, expected {expected} ± {tolerance} ({source})"
        );
    }
}

fn micro(viscosity: calc::engine::quantity::Viscosity) -> f64 {
    viscosity.si() * 1e6
}

#[test]
fn the_simple_equations_meet_another_transcription() {
    let library = "iapws 1.5.5, _Liquid(T): the same equations, so this checks that they are copied rightly";
    let densities = Table { source: library, tolerance: 0.5e-7 };
    let viscosities = Table { source: library, tolerance: 0.5e-5 };
    // K, kg/m³, µPa·s
    for (t, rho, mu) in
        [(260.0, 997.0683603, 3058.36075), (298.15, 997.0470134, 889.99677), (375.0, 957.0097103, 276.20724)]
    {
        densities.check(&format!("density at {t} K"), density(Temperature::of(t)).si(), rho);
        viscosities.check(&format!("viscosity at {t} K"), micro(viscosity(Temperature::of(t))), mu);
    }
}

/// Celsius, kg/m³ and µPa·s at 0.1 MPa: iapws 1.5.5, `IAPWS95(T=T, P=0.1).rho` and `_Viscosity(rho, T)`.
/// Another equation of state and another viscosity than those under test.
const TAP_WATER: [(f64, f64, f64); 35] = [
    (1.0, 999.901168, 1731.0240),
    (2.0, 999.942339, 1673.5179),
    (3.0, 999.966504, 1619.0111),
    (4.0, 999.974214, 1567.2939),
    (5.0, 999.965982, 1518.1747),
    (6.0, 999.942297, 1471.4785),
    (7.0, 999.903616, 1427.0446),
    (8.0, 999.850376, 1384.7255),
    (9.0, 999.782986, 1344.3858),
    (10.0, 999.701837, 1305.9009),
    (11.0, 999.607298, 1269.1557),
    (12.0, 999.499719, 1234.0442),
    (13.0, 999.379435, 1200.4685),
    (14.0, 999.246762, 1168.3379),
    (15.0, 999.102003, 1137.5683),
    (16.0, 998.945445, 1108.0819),
    (17.0, 998.777364, 1079.8065),
    (18.0, 998.598022, 1052.6747),
    (19.0, 998.407668, 1026.6242),
    (20.0, 998.206543, 1001.5966),
    (21.0, 997.994876, 977.5376),
    (22.0, 997.772886, 954.3965),
    (23.0, 997.540784, 932.1260),
    (24.0, 997.298770, 910.6819),
    (25.0, 997.047039, 890.0227),
    (26.0, 996.785776, 870.1095),
    (27.0, 996.515158, 850.9059),
    (28.0, 996.235358, 832.3779),
    (29.0, 995.946541, 814.4932),
    (30.0, 995.648863, 797.2218),
    (31.0, 995.342479, 780.5353),
    (32.0, 995.027535, 764.4068),
    (33.0, 994.704171, 748.8113),
    (34.0, 994.372526, 733.7250),
    (35.0, 994.032730, 719.1255),
];

#[test]
fn tap_water_meets_the_scientific_formulations() {
    let source = "iapws 1.5.5: IAPWS95 and _Viscosity";
    // SR6-08 is a fit to IAPWS-95, and leaves it by up to 4.0e-5 kg/m³.
    let densities = Table { source, tolerance: 4e-5 };
    for (t, rho, mu) in TAP_WATER {
        densities.check(&format!("density at {t} °C"), density(celsius(t)).si(), rho);
        // The simple equation is a fit to the full one, and leaves it by up to 3.1e-5 of the value.
        let simple = Table { source, tolerance: 3.2e-5 * mu };
        simple.check(&format!("simple viscosity at {t} °C"), micro(viscosity(celsius(t))), mu);
        // Half a unit of the viscosity, and of the density, of which 1 kg/m³ makes 4 µPa·s.
        let full = Table { source, tolerance: 0.52e-4 };
        let ours = micro(viscosity_iapws_2008(celsius(t), Density::of(rho)));
        full.check(&format!("full viscosity at {t} °C"), ours, mu);
    }
}

/// Reynolds number, relative roughness, Colebrook's factor, Swamee and Jain's.
const FRICTION: [(f64, f64, f64, f64); 12] = [
    (2500.0, 0.0001, 0.04613737, 0.047386),
    (3900.0, 0.0, 0.04020740, 0.040877),
    (4000.0, 0.002, 0.04189091, 0.042799),
    (5000.0, 0.001, 0.03849536, 0.039101),
    (1e4, 0.0, 0.03088295, 0.030972),
    (2e4, 0.0005, 0.02694652, 0.027016),
    (6e4, 0.0023, 0.02675480, 0.027027),
    (7.5e4, 0.0002, 0.01998949, 0.019963),
    (1e5, 0.0, 0.01798977, 0.017863),
    (1e5, 0.0001, 0.01851387, 0.018452),
    (1e6, 0.001, 0.01994347, 0.020029),
    (1e7, 0.05, 0.07155298, 0.071558),
];

#[test]
fn friction_meets_a_general_library() {
    let colebrook = Table { source: "fluids 1.3.1, Colebrook(Re, eD)", tolerance: 0.5e-8 };
    // The library writes (6.97/Re)^0.9 for 5.74/Re^0.9, which moves the seventh decimal.
    let explicit = Table { source: "fluids 1.3.1, Swamee_Jain_1976(Re, eD)", tolerance: 0.6e-6 };
    for (reynolds, e, factor, swamee_jain) in FRICTION {
        let what = format!("Re {reynolds}, e {e}");
        colebrook.check(&what, friction_factor(reynolds, e).factor, factor);
        if reynolds >= 4000.0 {
            explicit.check(&what, friction_factor_swamee_jain_1976(reynolds, e), swamee_jain);
        }
    }
}

/// A hose with water in it, and what a general library says of it.
struct Hose {
    flow: Flow,
    bore: Length,
    length: Length,
    roughness_micrometres: f64,
    water: Temperature,
    fittings: f64,
    /// m/s
    velocity: f64,
    reynolds: f64,
    factor: f64,
    /// kPa
    loss: f64,
}

/// The columns are those of [`Hose`]: L/min, mm, m, µm, °C, sum of loss coefficients; m/s, 1, 1, kPa.
#[rustfmt::skip]
const HOSES: [[f64; 10]; 9] = [
    [ 8.0, 12.7,   3.0, 1.5, 15.0, 0.0, 1.0525, 11740.5, 0.029806,  3.8966],
    [ 4.0,  9.5,   2.0, 1.5,  5.0, 0.0, 0.9405,  5885.1, 0.035887,  3.3415],
    [10.0, 12.7,   5.0, 1.5,  5.0, 6.0, 1.3157, 11005.6, 0.030304, 15.5187],
    [ 2.0,  6.35,  1.0, 1.5, 20.0, 0.0, 1.0525,  6661.2, 0.034780,  3.0285],
    [15.0, 19.0,  10.0, 7.0, 10.0, 4.0, 0.8817, 12825.0, 0.029575,  7.6037],
    [12.0, 12.7,   7.5, 1.5,  8.0, 3.5, 1.5788, 14477.9, 0.028275, 25.1697],
    [ 6.0,  9.525, 4.0, 1.5, 12.0, 2.0, 1.4034, 10826.8, 0.030495, 14.5733],
    [ 3.0,  6.0,   1.5, 1.5, 25.0, 1.0, 1.7684, 11886.6, 0.029932, 13.2247],
    [ 1.0, 10.0,   2.0, 1.5, 10.0, 0.0, 0.2122,  1624.5, 0.039397,  0.1774],
];

impl Hose {
    fn from(row: [f64; 10]) -> Self {
        let [flow, bore, length, roughness_micrometres, water, fittings, velocity, reynolds, factor, loss] =
            row;
        Hose {
            flow: litres_per_minute(flow),
            bore: millimetres(bore),
            length: metres(length),
            roughness_micrometres,
            water: celsius(water),
            fittings,
            velocity,
            reynolds,
            factor,
            loss,
        }
    }
}

#[test]
fn hoses_meet_a_general_library() {
    let table = |tolerance| Table {
        source: "fluids 1.3.1, Colebrook, with density and viscosity of iapws 1.5.5, _Liquid",
        tolerance,
    };
    for hose in HOSES.map(Hose::from) {
        let what = format!("{:?} through {:?}", hose.flow, hose.bore);
        let velocity = mean_velocity(hose.flow, hose.bore);
        let (rho, mu) = (density(hose.water), viscosity(hose.water));
        let reynolds = reynolds_number(velocity, hose.bore, rho, mu);
        let roughness = millimetres(1e-3 * hose.roughness_micrometres);
        let factor = friction_factor(reynolds, roughness / hose.bore).factor;
        let loss = (factor * (hose.length / hose.bore) + hose.fittings) * velocity_pressure(rho, velocity);
        table(0.5e-4).check(&what, velocity.si(), hose.velocity);
        table(0.05).check(&what, reynolds, hose.reynolds);
        table(0.5e-6).check(&what, factor, hose.factor);
        table(0.5e-4).check(&what, loss.si() / 1e3, hose.loss);
    }
}

#[test]
fn a_flow_coefficient_becomes_a_loss_coefficient() {
    // The library rounds 1.6004e9 to 1.6e9 in front of d⁴/Kv², and takes its water at 60 °F.
    let table = Table { source: "fluids 1.3.1, Kv_to_K(2, 0.0127)", tolerance: 0.005 };
    let valve = FlowCoefficient::of(FLOW.unit("m³/h").to_si(2.0));
    table.check("Kv 2 in 12.7 mm", loss_coefficient(valve, millimetres(12.7)), 10.405786);

    // By definition: at the flow Kv the coefficient makes a drop of 1 bar in water of 15 °C.
    let velocity = mean_velocity(Flow::of(valve.si()), millimetres(12.7));
    let drop =
        loss_coefficient(valve, millimetres(12.7)) * velocity_pressure(density(celsius(15.0)), velocity);
    assert!((drop.si() / 1e5 - 1.0).abs() < 1e-5, "{drop:?}");
}
