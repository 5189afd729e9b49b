//! What the RO's own instructions ask of its feed water, against the tests at the tap and the laboratory's report.
//!
//! Only what was entered from the instructions is judged. A reading at the tap counts as it is: nothing in the cart is
//! relied on to take iron, manganese or turbidity out. Free chlorine and hardness are asked behind carbon and softener;
//! there a tap that keeps the limit keeps it too.

use super::Plan;
use super::report::{Behind, HardWater};
use crate::choice;
use crate::engine::quantity::{Chlorine, Concentration, Hardness};
use crate::engine::sheet::{
    Criterion, Judges, Known, Missing, Named, Reported, Side, Stage, Working, source,
};
use crate::trade::cases;
use crate::trade::membrane::{FEED_WITHIN, Season, tempered};
use crate::trade::terms::{place, softener};
use crate::trade::water::Analyte;

choice!(/// Which of two data of one water count.
    Newer { Tests "tests" "Your own tests", Report "report" "The laboratory report" });

/// What must not be exceeded.
pub static FEED_AT_MOST: Criterion = Criterion {
    id: "feed-at-most",
    sentence: "Feed water, within the RO's instructions",
    stage: Stage::Membrane,
    side: Side::AtMost,
    // a reading, not a forecast
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

/// What must be reached.
pub static FEED_AT_LEAST: Criterion = Criterion { id: "feed-at-least", side: Side::AtLeast, ..FEED_AT_MOST };

/// The coldest feed of the year, tempered or not.
pub static COLDEST_FEED: Criterion = Criterion {
    id: "coldest-feed",
    sentence: "Coldest feed water of the year, within the RO's instructions",
    forecast: true,
    levers: &["tempered-temperature"],
    ..FEED_AT_LEAST
};

/// Judges what was asked for, under its own name; nothing where the instructions set no limit.
macro_rules! judge {
    ($w:expr, $criterion:expr, $case:expr, $reading:expr, $limit:expr) => {
        if let Some(limit) = $limit.transpose() {
            $w.in_case($case, |w| w.judge_known($criterion, $reading, limit));
        }
    };
}

impl Plan {
    /// Each limit of the instructions.
    pub(super) fn feed_as_instructed(&self, water: HardWater, behind: Known<Behind>, w: &mut Working) {
        self.judge_metal((self.iron, Analyte::Iron), self.highest_iron, w);
        self.judge_metal((self.manganese, Analyte::Manganese), self.highest_manganese, w);
        judge!(w, &FEED_AT_MOST, cases::TURBIDITY, self.turbidity, self.highest_turbidity);
        judge!(w, &FEED_AT_MOST, cases::SDI, self.density_index, self.highest_index);
        judge!(
            w,
            &FEED_AT_MOST,
            cases::FREE_CHLORINE,
            self.free_chlorine_at_inlet(),
            self.highest_inlet_chlorine
        );
        judge!(w, &FEED_AT_LEAST, cases::PH, self.feed_ph, self.lowest_ph);
        judge!(w, &FEED_AT_MOST, cases::PH, self.feed_ph, self.highest_ph);
        judge!(
            w,
            &FEED_AT_MOST,
            cases::HARDNESS,
            self.hardness_at_inlet(water, behind),
            self.highest_hardness
        );
        let fed = |tap: Known<_>| Ok(tempered(tap?, self.tempered_to()?));
        w.in_season(Season::Coldest.when(), |w| {
            judge!(w, &COLDEST_FEED, Named::NONE, fed(self.coldest_tap()), self.lowest_feed_temperature);
        });
        w.in_season(Season::Warmest.when(), |w| {
            w.judge_known(&FEED_WITHIN, fed(self.warmest_tap()), self.highest_feed_temperature);
        });
    }

    /// Iron or manganese, which a laboratory may report as "less than".
    fn judge_metal(
        &self,
        (test, analyte): (Known<Option<Concentration>>, Analyte),
        limit: Known<Option<Concentration>>,
        w: &mut Working,
    ) {
        let Some(limit) = limit.transpose() else { return };
        let (metal, missing) = match analyte {
            Analyte::Manganese => (cases::MANGANESE, Missing::empty("manganese", softener::MANGANESE.name)),
            _ => (cases::IRON, Missing::empty("iron", softener::IRON.name)),
        };
        let reading =
            self.test_or_report(test, self.reported(analyte)).and_then(|reading| reading.ok_or(missing));
        w.in_case(metal, |w| match (reading, limit) {
            (Ok(reading), Ok(limit)) => w.judge_reported(&FEED_AT_MOST, reading, limit, "feed-report"),
            (reading, limit) => {
                w.judge_known(&FEED_AT_MOST, reading.map(Reported::at_most), limit);
            }
        });
    }

    /// Behind the carbon by its own test; where none was made, carbon only lowers what the tap shows.
    fn free_chlorine_at_inlet(&self) -> Known<Chlorine> {
        if let Some(tested) = self.inlet_chlorine? {
            return Ok(tested);
        }
        let missing = Missing::empty("inlet-free-chlorine", place::INLET_FREE_CHLORINE.name);
        let at_tap = match self.free_chlorine? {
            Some(free) => free,
            // free chlorine is a part of the total
            None => self.total_chlorine.map_err(|_| missing)?,
        };
        let keeps = self.highest_inlet_chlorine?.is_some_and(|highest| at_tap <= highest);
        if keeps { Ok(at_tap) } else { Err(missing) }
    }

    /// Behind the softener by its own test; where none was made, a softener only lowers what the tap shows.
    fn hardness_at_inlet(&self, water: HardWater, behind: Known<Behind>) -> Known<Hardness> {
        match behind? {
            Behind::NoSoftener | Behind::Spent => water.hardness,
            Behind::Soft(hardness) => Ok(hardness),
            Behind::Untested(missing) => {
                let at_tap = water.hardness?;
                let keeps = self.highest_hardness?.is_some_and(|highest| at_tap <= highest);
                if keeps { Ok(at_tap) } else { Err(missing) }
            }
        }
    }
}
