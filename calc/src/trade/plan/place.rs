//! What is known of a place's water in words, and what follows without any arithmetic.

use crate::choice;
use crate::engine::quantity::Chlorine;
use crate::engine::sheet::{
    Caution, Check, Criterion, Judges, Known, Missing, Side, Stage, State, Value, Working, source,
};
use crate::trade::tap::COLOUR_IS_NOT_ALWAYS_CHLORINE;
use crate::trade::terms::place;

choice!(/// Where the water comes from.
    WaterSource { Public "public" "Public supply", Well "well" "Private well", Tanker "tanker" "Tanker" });

choice!(/// What the building doses into its water.
Dosing {
    None "none" "None, confirmed by facilities (estates)",
    ChlorineDioxide "chlorine-dioxide" "Chlorine dioxide",
    Monochloramine "monochloramine" "Monochloramine",
    CopperSilver "copper-silver" "Copper-silver ionization",
    Peroxide "peroxide" "Hydrogen peroxide, with or without silver",
    Other "other" "Other",
    NotKnown "not-known" "Not known",
});

choice!(/// The disinfectant of the supply.
    Disinfectant { Chlorine "chlorine" "Chlorine", Chloramine "chloramine" "Chloramine", None "none" "None" });

/// What carbon and a test of total chlorine do not answer.
pub static BUILDING_DOSING: Criterion = Criterion {
    id: "building-dosing",
    sentence: "Building water treatment: only one that carbon removes and a chlorine test shows",
    stage: Stage::Tap,
    side: Side::Answered,
    forecast: false,
    source: &source::COMMON_PRACTICE,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

static HOLD_AND_ASK: Caution = Caution {
    id: "hold-and-ask",
    text: "Hold: the building water treatment is not known, or a chlorine test does not show it. Ask facilities (estates) and the medical director before this tap is used.",
};

static WELL_WATER: Caution = Caution {
    id: "well-water",
    text: "Private well: agree with the owner to call before any shock chlorination. Have the water analyzed as often as local rules ask, including nitrate and bacteria.",
};

static TANKER_WATER: Caution = Caution {
    id: "tanker-water",
    text: "Tanker water changes with every load and is often chlorinated on the way. Test total chlorine, hardness and conductivity of each load before it is used.",
};

/// Whether what was said of the building's dosing asks to hold: it belongs into the sentence on top, before any number.
/// Where nothing was said yet, there is nothing to hold for: the field is asked.
pub fn holds(checks: &[Check], dosing: Option<&Value>) -> bool {
    let of_dosing = checks.iter().find(|check| check.criterion.id == BUILDING_DOSING.id);
    dosing.is_some() && of_dosing.is_some_and(|check| check.state != State::Met)
}

/// Judges what the building doses: hold where carbon is no answer, or where nobody knows.
pub fn judge_dosing(dosing: Known<Dosing>, w: &mut Working) {
    let is_answered = dosing.and_then(|dosing| match dosing {
        // monochloramine is taken out by carbon and shown by the test of total chlorine
        Dosing::None | Dosing::Monochloramine => Ok(true),
        Dosing::ChlorineDioxide | Dosing::Peroxide => Ok(false),
        Dosing::CopperSilver => Err(not_known("copper and silver must be tested in the product water")),
        Dosing::Other | Dosing::NotKnown => Err(not_known(place::BUILDING_DOSING.name)),
    });
    if is_answered != Ok(true) {
        w.caution(&HOLD_AND_ASK);
    }
    w.judge_answer(&BUILDING_DOSING, is_answered);
}

/// Raises what a source of water brings along.
pub fn caution_source(source: Option<WaterSource>, w: &mut Working) {
    match source {
        Some(WaterSource::Well) => w.caution(&WELL_WATER),
        Some(WaterSource::Tanker) => w.caution(&TANKER_WATER),
        Some(WaterSource::Public) | None => {}
    }
}

/// Raises what colours a chlorine test in water that is said to carry no disinfectant.
pub fn caution_colour(disinfectant: Option<Disinfectant>, total: Known<Chlorine>, w: &mut Working) {
    if disinfectant == Some(Disinfectant::None) && total.is_ok_and(|total| total.si() > 0.0) {
        w.caution(&COLOUR_IS_NOT_ALWAYS_CHLORINE);
    }
}

const fn not_known(why: &'static str) -> Missing {
    Missing::not_known("building-dosing", why)
}
