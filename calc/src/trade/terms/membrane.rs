//! Terms of the RO and its membrane.

use super::tap::TAP_TEMPERATURE;
use crate::engine::quantity::kinds::{
    CONCENTRATION, CONDUCTIVITY, FLOW, NUMBER, PRESSURE, PRESSURE_DIFFERENCE, RATIO,
};
use crate::engine::sheet::Term;

/// `product-flow`
pub const PRODUCT_FLOW: Term = Term::number(&FLOW, "Product flow", "Q_p")
    .help("Timed jug test of the product water (permeate), at the same time as the reject.")
    .plausible(0.1, 10.0, "L/min")
    .possible(0.001, 500.0, "L/min")
    .within_share(3.0)
    .read_with("jug");

/// `reject-flow`
pub const REJECT_FLOW: Term = Term::number(&FLOW, "Reject flow", "Q_c")
    .help("Timed jug test of the reject (concentrate, drain), at the same time as the product.")
    .plausible(0.1, 20.0, "L/min")
    .possible(0.001, 1000.0, "L/min")
    .within_share(3.0)
    .read_with("jug");

/// `flush-reject-flow`
pub const FLUSH_REJECT_FLOW: Term = REJECT_FLOW
    .named("Reject flow during flush")
    .symbol("Q_c,flush")
    .help("Timed jug test of the reject while the RO flushes. Enter 0 if it never flushes.")
    .plausible(0.0, 20.0, "L/min")
    .possible(0.0, 1000.0, "L/min");

/// `label-flow`
pub const LABEL_FLOW: Term = Term::number(&FLOW, "Rated product flow at 25 °C (label)", "Q_label")
    .help("Used only if nothing was measured.")
    .assumed("not used")
    .plausible(0.1, 10.0, "L/min")
    .possible(0.001, 500.0, "L/min")
    .within_share(15.0);

/// `anchor-temperature`
pub const ANCHOR_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Water temperature at the time of the flow readings")
    .symbol("T_0")
    .assumed("the water temperature at the tap");

/// `coldest-temperature`
pub const COLDEST_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Coldest water of the year")
    .symbol("T_cold")
    .help("From the building's or the utility's records. If months are entered too, the colder value counts.")
    .read_with("yearly record")
    .assumed("the coldest of all twelve months");

/// `warmest-temperature`
pub const WARMEST_TEMPERATURE: Term = COLDEST_TEMPERATURE
    .named("Warmest water of the year")
    .symbol("T_warm")
    .help("From the building's or the utility's records. If months are entered too, the warmer value counts.")
    .assumed("the warmest of all twelve months");

/// `tempered-temperature`
pub const TEMPERED_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Tempered feed temperature")
    .symbol("T_mix")
    .help("Only with a thermostatic mixing valve that fails cold. Water colder than this then never reaches the RO.")
    .read_with("thermostatic valve")
    .assumed("no tempering");

/// `cold-temperature`
pub const COLD_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Cold water temperature")
    .symbol("T_c")
    .help("In the coldest weeks: from the building's or the utility's records, or from a thermometer.")
    .read_with("yearly record");

/// `hot-temperature`
pub const HOT_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Hot water temperature at the mixing valve")
    .symbol("T_h")
    .help("A thermometer in the jug, once the running hot tap has become steady.")
    .plausible(40.0, 65.0, "°C")
    .possible(5.0, 99.0, "°C");

/// `highest-feed-temperature`
pub const HIGHEST_FEED_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Highest feed temperature (RO's instructions)")
    .symbol("T_max")
    .help("From the RO's instructions.")
    .read_with("instructions")
    .plausible(25.0, 45.0, "°C");

/// `control`
pub const CONTROL: Term = Term::other("What stays the same when the water gets colder")
    .help("Ask whoever services the RO, or compare product and reject on a cold day and on a warm day.")
    .assumed("a set reject valve or a constant recovery, whichever is worse for each check");

/// `fouling-allowance`: the number is the share that is left, so that 100 % is no allowance.
pub const FOULING_ALLOWANCE: Term = Term::number(&RATIO, "Fouling allowance: product flow left after fouling", "a")
    .help("Enter what is left: 90 % for an allowance of 10 %, 100 % for none. It lowers product flow in capacity checks only. Common practice, no source.")
    .assumed("85 % is left, an allowance of 15 %")
    .plausible(60.0, 100.0, "%")
    .possible(10.0, 100.0, "%");

/// `forms`
pub const FORMS: Term = Term::other("Temperature correction method")
    .help("Published methods disagree more the further from the reading. A table in the RO's own instructions comes before all of them.")
    .assumed("the worst of all five for each check");

/// `pump-pressure`
pub const PUMP_PRESSURE: Term = Term::number(&PRESSURE, "Pump pressure", "p_0")
    .help("The gauge between pump and membrane, at the same time as the flows.")
    .plausible(3.0, 20.0, "bar")
    .possible(0.1, 100.0, "bar")
    .within(0.2, "bar")
    .read_with("pump gauge");

/// `pressure-limit`
pub const PRESSURE_LIMIT: Term = PUMP_PRESSURE
    .named("Highest pump pressure (relief setting or RO's limit)")
    .symbol("p_max")
    .help("From the RO's instructions. Never change a relief setting to gain product.")
    .read_with("pressure limit");

/// `highest-recovery`
pub const HIGHEST_RECOVERY: Term = Term::number(&RATIO, "Highest recovery (RO's instructions)", "Y_max")
    .assumed("recovery is not judged")
    .plausible(20.0, 80.0, "%")
    .possible(1.0, 99.0, "%");

/// `salt-passage`
pub const SALT_PASSAGE: Term = Term::number(&RATIO, "Salt passage, feed basis", "SP")
    .help("Product conductivity over feed conductivity, both at 25 °C.")
    .assumed("0 %: all salt goes to the reject")
    .plausible(0.0, 15.0, "%")
    .possible(0.0, 100.0, "%");

/// `feed-concentration`
pub const FEED_CONCENTRATION: Term =
    Term::number(&CONCENTRATION, "TDS of the feed, or one substance in it", "C_f")
        .help("From a laboratory report.")
        .plausible(10.0, 2000.0, "mg/L")
        .possible(0.0, 50_000.0, "mg/L")
        .within_share(5.0);

/// `local-passage`
pub const LOCAL_PASSAGE: Term = Term::number(&RATIO, "Local salt passage of the membrane", "p")
    .help("The share of the salt at one spot that passes there. 1 to 5 % is common (common practice, no source). It equals the salt passage that is read at a very low recovery.")
    .plausible(0.2, 15.0, "%")
    .possible(0.01, 100.0, "%");

/// `feed-conductivity`
pub const FEED_CONDUCTIVITY: Term = Term::number(&CONDUCTIVITY, "Feed conductivity at 25 °C", "κ_f")
    .help("At the RO inlet, after all filters. Use the meter that reads the product too.")
    .plausible(30.0, 2500.0, "µS/cm")
    .possible(0.1, 100_000.0, "µS/cm")
    .within_share(2.0)
    .read_with("conductivity meter");

/// `product-conductivity`
pub const PRODUCT_CONDUCTIVITY: Term = FEED_CONDUCTIVITY
    .named("Product conductivity at 25 °C")
    .symbol("κ_p")
    .help("Product water (permeate), after the RO has run for some minutes.")
    .plausible(0.5, 100.0, "µS/cm")
    .possible(0.01, 100_000.0, "µS/cm");

/// `baseline-rejection`
pub const BASELINE_REJECTION: Term = Term::number(&RATIO, "Baseline rejection of this RO", "R_0")
    .help("From its first days with this membrane on this water, also on the feed basis.")
    .plausible(85.0, 99.9, "%")
    .possible(1.0, 99.999, "%");

/// `recovery`
pub const RECOVERY: Term = Term::number(&RATIO, "Recovery", "Y")
    .help("Product flow over product plus reject flow.")
    .plausible(15.0, 80.0, "%")
    .possible(0.1, 99.0, "%")
    .within_share(4.0);

/// `product-pressure`
pub const PRODUCT_PRESSURE: Term = Term::number(&PRESSURE, "Product pressure", "p_p")
    .help("The gauge on the product line, at the same time as the flows. 0 if the product runs out freely.")
    .assumed("0: it runs out freely")
    .plausible(0.0, 3.0, "bar")
    .possible(0.0, 20.0, "bar")
    .within(0.1, "bar");

/// `membrane-drop`
pub const MEMBRANE_DROP: Term =
    Term::number(&PRESSURE_DIFFERENCE, "Pressure drop along the membrane", "Δp")
        .help("Feed to reject: pump pressure less the gauge on the reject line before its valve. Or enter the reject pressure.")
        .assumed("from the reject pressure; without it 0 in the driving pressure")
        .plausible(0.0, 2.0, "bar")
        .possible(0.0, 20.0, "bar")
        // the difference of two gauges of 0.2 bar each: √2 · 0.2
        .within(0.28, "bar");

/// `reject-pressure`
pub const REJECT_PRESSURE: Term = PUMP_PRESSURE
    .named("Reject pressure, before its valve")
    .symbol("p_c")
    .help("The gauge on the reject line, between membrane and reject valve, at the same time as the pump pressure.")
    .assumed("not used")
    .read_with("reject gauge");

/// `salt-per-conductivity`
pub const SALT_PER_CONDUCTIVITY: Term =
    Term::number(&NUMBER, "TDS factor, mg/L as sodium chloride per µS/cm", "k")
        .help("Used only for the osmotic pressure, which is small beside the pump pressure.")
        .assumed("0.5")
        .plausible(0.45, 0.8, "")
        .possible(0.1, 2.0, "");

/// `correction-form`
pub const CORRECTION_FORM: Term = Term::other("Temperature correction method")
    .help("The one that the membrane's supplier uses, if it is among these.")
    .assumed("the one that gives the lowest normalized flow");

/// `same-instruments`
pub const SAME_INSTRUMENTS: Term = Term::other("Same instruments as at start-up?")
    .help("Only the very same jug, watch, meters and gauges make errors that cancel.")
    .assumed("no: each reading has its own error");

/// `baseline-product-flow`
pub const BASELINE_PRODUCT_FLOW: Term = PRODUCT_FLOW
    .named("Product flow at start-up")
    .symbol("Q_p0")
    .help("From the first days with this membrane, as in the RO's record.")
    .read_with("start-up jug");

/// `baseline-reject-flow`
pub const BASELINE_REJECT_FLOW: Term = REJECT_FLOW
    .named("Reject flow at start-up")
    .symbol("Q_c0")
    .help("At the same time as that product flow.")
    .read_with("start-up jug");

/// `baseline-temperature`
pub const BASELINE_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Water temperature at start-up")
    .symbol("T_s")
    .help("At the same time as that product flow.")
    .read_with("start-up thermometer");

/// `baseline-pump-pressure`
pub const BASELINE_PUMP_PRESSURE: Term = PUMP_PRESSURE
    .named("Pump pressure at start-up")
    .symbol("p_s")
    .help("At the same time as that product flow.")
    .read_with("start-up pump gauge");

/// `baseline-reject-pressure`
pub const BASELINE_REJECT_PRESSURE: Term = REJECT_PRESSURE
    .named("Reject pressure at start-up, before its valve")
    .symbol("p_c0")
    .read_with("start-up reject gauge");

/// `baseline-product-pressure`
pub const BASELINE_PRODUCT_PRESSURE: Term =
    PRODUCT_PRESSURE.named("Product pressure at start-up").symbol("p_p0").assumed("the same as today");

/// `baseline-membrane-drop`
pub const BASELINE_MEMBRANE_DROP: Term = MEMBRANE_DROP
    .named("Pressure drop along the membrane at start-up")
    .symbol("Δp_0")
    .assumed("from the reject pressure; without it as today in the driving pressure");

/// `baseline-feed-conductivity`
pub const BASELINE_FEED_CONDUCTIVITY: Term = FEED_CONDUCTIVITY
    .named("Feed conductivity at start-up, at 25 °C")
    .symbol("κ_f0")
    .help("At the same time as that product flow.")
    .read_with("start-up conductivity meter");

/// `baseline-product-conductivity`
pub const BASELINE_PRODUCT_CONDUCTIVITY: Term = PRODUCT_CONDUCTIVITY
    .named("Product conductivity at start-up, at 25 °C")
    .symbol("κ_p0")
    .help("At the same time as that product flow.")
    .read_with("start-up conductivity meter");
