//! Terms of the RO and its membrane.

use super::tap::TAP_TEMPERATURE;
use crate::engine::quantity::kinds::{
    CONCENTRATION, CONDUCTIVITY, FLOW, NUMBER, PRESSURE, PRESSURE_DIFFERENCE, RATIO,
};
use crate::engine::sheet::Term;

/// `product-flow`
pub const PRODUCT_FLOW: Term = Term::number(&FLOW, "Product flow", "Q_p")
    .help("Product water (permeate) into a jug with a watch, at the same time as the reject.")
    .plausible(0.1, 10.0, "L/min")
    .possible(0.001, 500.0, "L/min")
    .within_share(3.0)
    .read_with("jug");

/// `reject-flow`
pub const REJECT_FLOW: Term = Term::number(&FLOW, "Reject flow", "Q_c")
    .help("Reject (concentrate) into a jug with a watch, at the same time as the product.")
    .plausible(0.1, 20.0, "L/min")
    .possible(0.001, 1000.0, "L/min")
    .within_share(3.0)
    .read_with("jug");

/// `flush-reject-flow`
pub const FLUSH_REJECT_FLOW: Term = REJECT_FLOW
    .named("Reject flow in flush")
    .symbol("Q_c,flush")
    .help("Reject into a jug while the RO flushes; 0 where it never flushes.")
    .plausible(0.0, 20.0, "L/min")
    .possible(0.0, 1000.0, "L/min");

/// `label-flow`
pub const LABEL_FLOW: Term = Term::number(&FLOW, "Product flow on the RO's label, at 25 °C", "Q_label")
    .help("Used only where nothing was measured.")
    .assumed("not used")
    .plausible(0.1, 10.0, "L/min")
    .possible(0.001, 500.0, "L/min")
    .within_share(15.0);

/// `anchor-temperature`
pub const ANCHOR_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Water temperature when product and reject were read")
    .symbol("T_0")
    .assumed("the water temperature at the tap");

/// `coldest-temperature`
pub const COLDEST_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Coldest water of the year")
    .symbol("T_cold")
    .help("From the building's or the utility's records. Months, where given, count as well; the colder of both is taken.")
    .read_with("yearly record")
    .assumed("the coldest of the months");

/// `warmest-temperature`
pub const WARMEST_TEMPERATURE: Term = COLDEST_TEMPERATURE
    .named("Warmest water of the year")
    .symbol("T_warm")
    .help("From the building's or the utility's records. Months, where given, count as well; the warmer of both is taken.")
    .assumed("the warmest of the months");

/// `tempered-temperature`
pub const TEMPERED_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Temperature to which cold feed is tempered")
    .symbol("T_mix")
    .help("Only where a thermostatic valve that fails cold mixes in hot water; colder water than this never reaches the RO.")
    .read_with("thermostatic valve")
    .assumed("the feed is as cold as the water");

/// `cold-temperature`
pub const COLD_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Cold water temperature")
    .symbol("T_c")
    .help("In the coldest weeks: from the building's or the utility's records, or a thermometer then.")
    .read_with("yearly record");

/// `hot-temperature`
pub const HOT_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Hot water temperature at the valve")
    .symbol("T_h")
    .help("A thermometer in the jug after the hot tap has run until it stays the same.")
    .plausible(40.0, 65.0, "°C")
    .possible(5.0, 99.0, "°C");

/// `highest-feed-temperature`
pub const HIGHEST_FEED_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Highest feed temperature that the RO's instructions allow")
    .symbol("T_max")
    .help("From the RO's instructions.")
    .read_with("instructions")
    .plausible(25.0, 45.0, "°C");

/// `control`
pub const CONTROL: Term = Term::other("What stays the same when the water gets colder")
    .help("Ask whoever services the RO, or watch product and reject on a cold and on a warm day.")
    .assumed("a set reject valve, or a held recovery: the worse of both is taken check by check");

/// `fouling-allowance`
pub const FOULING_ALLOWANCE: Term = Term::number(&RATIO, "Share of the product flow that is left when the membrane has fouled", "a")
    .help("Taken off product flow in questions of capacity only. 100 % switches the allowance off. Common practice, no source.")
    .assumed("85 %")
    .plausible(60.0, 100.0, "%")
    .possible(10.0, 100.0, "%");

/// `forms`
pub const FORMS: Term = Term::other("Which temperature correction counts")
    .help("Published forms disagree, the more the further from the reading. The RO's own table, if its instructions have one, goes before all of them.")
    .assumed("the worst of all for each question");

/// `pump-pressure`
pub const PUMP_PRESSURE: Term =
    Term::number(&PRESSURE, "Pump pressure when product and reject were read", "p_0")
        .help("The gauge between pump and membrane, at the same time as the flows.")
        .plausible(3.0, 20.0, "bar")
        .possible(0.1, 100.0, "bar")
        .within(0.2, "bar");

/// `pressure-limit`
pub const PRESSURE_LIMIT: Term = PUMP_PRESSURE
    .named("Highest pressure: relief setting or the RO's own limit")
    .symbol("p_max")
    .help("From the RO's instructions. Never change a relief setting to gain product.");

/// `highest-recovery`
pub const HIGHEST_RECOVERY: Term =
    Term::number(&RATIO, "Highest recovery that the RO's instructions allow", "Y_max")
        .assumed("no bound is judged")
        .plausible(20.0, 80.0, "%")
        .possible(1.0, 99.0, "%");

/// `salt-passage`
pub const SALT_PASSAGE: Term = Term::number(&RATIO, "Salt passage, on the feed", "SP")
    .help("Product over feed conductivity, both at 25 °C.")
    .assumed("none: the reject takes all salt")
    .plausible(0.0, 15.0, "%")
    .possible(0.0, 100.0, "%");

/// `feed-concentration`
pub const FEED_CONCENTRATION: Term = Term::number(&CONCENTRATION, "Salt in the feed", "C_f")
    .help("Dissolved salt from a laboratory report, or of one substance in it.")
    .plausible(10.0, 2000.0, "mg/L")
    .possible(0.0, 50_000.0, "mg/L")
    .within_share(5.0);

/// `feed-conductivity`
pub const FEED_CONDUCTIVITY: Term = Term::number(&CONDUCTIVITY, "Conductivity of the feed, at 25 °C", "κ_f")
    .help("Into the RO, behind all filters. Use the meter that reads the product too.")
    .plausible(30.0, 2500.0, "µS/cm")
    .possible(0.1, 100_000.0, "µS/cm")
    .within_share(2.0)
    .read_with("conductivity meter");

/// `product-conductivity`
pub const PRODUCT_CONDUCTIVITY: Term = FEED_CONDUCTIVITY
    .named("Conductivity of the product, at 25 °C")
    .symbol("κ_p")
    .help("Of the product water (permeate), after some minutes of running.")
    .plausible(0.5, 100.0, "µS/cm")
    .possible(0.01, 100_000.0, "µS/cm");

/// `baseline-rejection`
pub const BASELINE_REJECTION: Term = Term::number(&RATIO, "Rejection of this RO when it was sound", "R_0")
    .help("From its first days with this membrane on this water, on the same basis (feed).")
    .plausible(85.0, 99.9, "%")
    .possible(1.0, 99.999, "%");

/// `recovery`
pub const RECOVERY: Term = Term::number(&RATIO, "Recovery", "Y")
    .help("Product over product and reject.")
    .plausible(15.0, 80.0, "%")
    .possible(0.1, 99.0, "%")
    .within_share(4.0);

/// `product-pressure`
pub const PRODUCT_PRESSURE: Term = Term::number(&PRESSURE, "Pressure of the product water", "p_p")
    .help(
        "The gauge behind the membrane, at the same time as the flows; 0 where the product runs out freely.",
    )
    .assumed("0: it runs out freely")
    .plausible(0.0, 3.0, "bar")
    .possible(0.0, 20.0, "bar")
    .within(0.1, "bar");

/// `membrane-drop`
pub const MEMBRANE_DROP: Term =
    Term::number(&PRESSURE_DIFFERENCE, "Pressure drop along the membrane, feed to reject", "Δp")
        .help("The gauge before the membrane less the one of the reject, before its valve.")
        .assumed("none")
        .plausible(0.0, 2.0, "bar")
        .possible(0.0, 20.0, "bar")
        .within(0.1, "bar");

/// `salt-per-conductivity`
pub const SALT_PER_CONDUCTIVITY: Term =
    Term::number(&NUMBER, "Salt for conductivity, mg/L as sodium chloride for each µS/cm", "k")
        .help("Used for the osmotic pressure alone, which is small beside the pump's.")
        .assumed("0.5")
        .plausible(0.45, 0.8, "")
        .possible(0.1, 2.0, "");

/// `correction-form`
pub const CORRECTION_FORM: Term = Term::other("Form of the temperature correction")
    .help("That of the membrane's supplier, where its table is like one of these.")
    .assumed("form A, 3020 K below and 2640 K above 25 °C");

/// `baseline-product-flow`
pub const BASELINE_PRODUCT_FLOW: Term = PRODUCT_FLOW
    .named("Product flow at start-up")
    .symbol("Q_p0")
    .help("From the first days with this membrane, as the RO's record has it.");

/// `baseline-reject-flow`
pub const BASELINE_REJECT_FLOW: Term = REJECT_FLOW
    .named("Reject flow at start-up")
    .symbol("Q_c0")
    .help("At the same time as that product flow.");

/// `baseline-temperature`
pub const BASELINE_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Water temperature at start-up")
    .symbol("T_s")
    .help("At the same time as that product flow.");

/// `baseline-pump-pressure`
pub const BASELINE_PUMP_PRESSURE: Term = PUMP_PRESSURE
    .named("Pump pressure at start-up")
    .symbol("p_s")
    .help("At the same time as that product flow.");

/// `baseline-product-pressure`
pub const BASELINE_PRODUCT_PRESSURE: Term =
    PRODUCT_PRESSURE.named("Pressure of the product water at start-up").symbol("p_p0");

/// `baseline-membrane-drop`
pub const BASELINE_MEMBRANE_DROP: Term =
    MEMBRANE_DROP.named("Pressure drop along the membrane at start-up").symbol("Δp_0");

/// `baseline-feed-conductivity`
pub const BASELINE_FEED_CONDUCTIVITY: Term = FEED_CONDUCTIVITY
    .named("Conductivity of the feed at start-up, at 25 °C")
    .symbol("κ_f0")
    .help("At the same time as that product flow.");

/// `baseline-product-conductivity`
pub const BASELINE_PRODUCT_CONDUCTIVITY: Term = PRODUCT_CONDUCTIVITY
    .named("Conductivity of the product at start-up, at 25 °C")
    .symbol("κ_p0")
    .help("At the same time as that product flow.");
