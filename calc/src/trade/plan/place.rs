//! What a place says of its water in words, and what follows without any arithmetic.

use crate::choice;
use crate::engine::quantity::Chlorine;
use crate::engine::sheet::{Caution, Criterion, Judges, Known, Missing, Side, Stage, Working, source};
use crate::trade::tap::COLOUR_IS_NOT_ALWAYS_CHLORINE;
use crate::trade::terms::place;

choice!(/// Where the water comes from.
    WaterSource { Public "public" "Public supply", Well "well" "Own well", Tanker "tanker" "Tanker" });

choice!(/// What the building doses into its water.
Dosing {
    None "none" "Nothing, said by those who run the building",
    ChlorineDioxide "chlorine-dioxide" "Chlorine dioxide",
    Monochloramine "monochloramine" "Monochloramine",
    CopperSilver "copper-silver" "Copper and silver",
    Peroxide "peroxide" "Hydrogen peroxide, with or without silver",
    Other "other" "Something else",
    NotKnown "not-known" "Not known",
});

choice!(/// The disinfectant of the supply.
    Disinfectant { Chlorine "chlorine" "Chlorine", Chloramine "chloramine" "Chloramine", None "none" "None" });

/// What carbon and a test of total chlorine do not answer.
pub static BUILDING_DOSING: Criterion = Criterion {
    id: "building-dosing",
    sentence: "What the building doses into its water is answered by carbon and a chlorine test",
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
    text: "Hold: what the building doses is not known, or is not shown by a chlorine test. Ask those who run the building, and the medical director, before this tap is used.",
};

static WELL_WATER: Caution = Caution {
    id: "well-water",
    text: "A well's water is nobody's but its owner's: agree that he rings before any shock chlorination, and have the water analysed as often as local rules ask, nitrate and bacteria among it.",
};

static TANKER_WATER: Caution = Caution {
    id: "tanker-water",
    text: "Water from a tanker changes with every load, and is often dosed with chlorine on the way: test total chlorine, hardness and conductivity of each load before it is used.",
};

/// Judges what the building doses: hold where carbon is no answer, or where nobody knows.
pub fn judge_dosing(dosing: Known<Dosing>, w: &mut Working) {
    let is_answered = dosing.and_then(|dosing| match dosing {
        // monochloramine is taken out by carbon and shown by the test of total chlorine
        Dosing::None | Dosing::Monochloramine => Ok(true),
        Dosing::ChlorineDioxide | Dosing::Peroxide => Ok(false),
        Dosing::CopperSilver => {
            Err(not_known("copper and silver need tests of their own in the product water"))
        }
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
