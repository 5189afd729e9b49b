//! What is said of both sides of the membrane: the feed and the reject.

use super::IndexBy;
use super::concentrate::{Feed, Side};
use super::langelier::{Constants, index_by, saturation_ph};
use crate::engine::quantity::{Concentration, Molality, Ph, Ratio, SaturationIndex, Temperature};
use crate::engine::sheet::{Known, Named, Sentence, Slot, Working};
use crate::step;
use crate::trade::cases;
use crate::trade::water::activity::RELIABLE;

/// Dissolved salt up to which Langelier's index is taken for rejects, as quoted of ASTM D3739.
const LANGELIER_HIGHEST: Concentration = Concentration::of(10.0);

/// Above it more than a tenth of the alkalinity is carbonate.
const LANGELIER_HIGHEST_PH: Ph = Ph::of(9.0);
/// About 440 mg/L: only mineral springs hold more (common practice, no source).
const HIGHEST_CARBON_DIOXIDE: Molality = Molality::of(0.01);

/// The feed and the reject, each of which may not be known.
pub(super) struct Both<'a> {
    pub feed: Known<&'a Feed<'a>>,
    pub reject: Known<Side>,
}

/// The indices of Langelier and Ryznar.
pub(super) struct Indices {
    pub feed: Known<SaturationIndex>,
    pub ryznar: Known<f64>,
    pub reject: Known<SaturationIndex>,
    /// By every set of constants.
    pub rows: Vec<IndexBy>,
}

impl<'a> Both<'a> {
    /// The feed, and its reject that is concentrated by this factor.
    pub fn of(feed: &'a Known<Feed<'a>>, factor: Known<f64>) -> Self {
        let feed = feed.as_ref().map_err(|missing| *missing);
        Self { feed, reject: feed.and_then(|feed| feed.reject(factor?)) }
    }

    fn sides(&self) -> impl Iterator<Item = (Named, &Feed<'a>, Side)> {
        let feed = self.feed.ok();
        let sides = feed
            .map(|feed| (cases::FEED, feed.side()))
            .into_iter()
            .chain(self.reject.ok().map(|side| (cases::REJECT, side)));
        sides.filter_map(move |(name, side)| Some((name, feed?, side)))
    }

    /// Records the balance, and warns where its activities are stretched.
    pub fn say(&self, w: &mut Working) {
        for (name, _, side) in self.sides() {
            let found = side.equilibrium;
            w.in_case(name, |w| {
                w.procedure(("ph", "pH"), found.ph, || {
                    Sentence::plain("law of mass action for 18 pairs and acids with activities, settled after {rounds} rounds; the reject holds as much carbon dioxide as the feed")
                        .with("rounds", Slot::Count(i64::from(found.rounds)))
                });
                w.procedure(("strength", "I"), found.ionic_strength, || {
                    "half of the sum of amount times squared charge, ion pairs counted as they are".into()
                });
            });
        }
        if let Ok(feed) = self.feed
            && feed.equilibrium.carbon_dioxide > HIGHEST_CARBON_DIOXIDE
        {
            w.warn(
                "feed-ph",
                "much-carbon-dioxide",
                Sentence::plain("this pH and alkalinity mean {carbon_dioxide} of free carbon dioxide, more than natural water holds; check both")
                    .quantity("carbon_dioxide", Concentration::of(44.009 * feed.equilibrium.carbon_dioxide.si())),
            );
        }
        // the reject is the saltier of both
        let saltiest = self.sides().last();
        if let Some((_, feed, side)) = saltiest {
            let strength = side.equilibrium.ionic_strength;
            if strength > RELIABLE {
                w.warn(
                    "feed-report",
                    "strong-water",
                    Sentence::plain("the ionic strength of {strength} is above {reliable}, the limit of this method: the indices are rough")
                        .quantity("strength", strength)
                        .quantity("reliable", RELIABLE),
                );
            }
            if side.equilibrium.ph > LANGELIER_HIGHEST_PH {
                w.warn(
                    "feed-ph",
                    "high-ph",
                    Sentence::plain("at a pH of {ph} the Langelier index reads too high, since it counts carbonate as bicarbonate; the saturation index counts")
                        .quantity("ph", side.equilibrium.ph),
                );
            }
            let dissolved = feed.supply.dissolved * side.factor;
            if dissolved > LANGELIER_HIGHEST {
                w.warn(
                    "feed-report",
                    "salty-water",
                    Sentence::plain("at a TDS of {dissolved} the Langelier index is no longer valid; the saturation index counts")
                        .quantity("dissolved", dissolved),
                );
            }
        }
    }

    /// Calcite in feed and reject.
    pub fn calcite(&self, w: &mut Working) -> [Known<SaturationIndex>; 2] {
        let of = |side: Known<Side>| self.feed.and_then(|feed| feed.calcite(&side?));
        let found = [of(self.feed.map(Feed::side)), of(self.reject)];
        for (name, symbol, index) in [(cases::FEED, "SI_f", found[0]), (cases::REJECT, "SI_c", found[1])] {
            if let Ok(index) = index {
                w.in_case(name, |w| {
                    w.procedure(("calcite", symbol), index, || {
                        "log10 of the activities of calcium and carbonate over the solubility product of calcite".into()
                    });
                });
            }
        }
        found
    }

    /// Gypsum in the reject.
    pub fn gypsum(&self, w: &mut Working) -> Known<Ratio> {
        let share = self.feed.and_then(|feed| feed.gypsum(&self.reject?))?;
        w.procedure(("gypsum", "Ω"), share, || {
            "activities of calcium and sulfate over the solubility product of gypsum".into()
        });
        Ok(share)
    }

    /// Langelier's index of the feed, Ryznar's, Langelier's of the reject; and by every set of constants.
    pub fn langelier(&self, temperature: Temperature, w: &mut Working) -> Indices {
        let water = |side: Known<Side>| self.feed.and_then(|feed| feed.langelier(&side?));
        let (feed, reject) = (water(self.feed.map(Feed::side)), water(self.reject));
        let of_feed = w.in_case(cases::FEED, |w| {
            feed.map(|water| {
                let saturation = saturation_ph(&water, temperature, w);
                let ph = water.ph;
                w.bind("ph", "pH", ph);
                w.bind("saturation", "pH_s", saturation);
                step!(w, index "LSI_f" = ph - saturation);
                step!(w, ryznar "RSI_f": f64 = 2.0 * saturation.si() - ph.si());
                (index, ryznar)
            })
        });
        let of_reject = w.in_case(cases::REJECT, |w| {
            reject.map(|water| {
                let saturation = saturation_ph(&water, temperature, w);
                let ph = water.ph;
                w.bind("ph", "pH", ph);
                w.bind("saturation", "pH_s", saturation);
                step!(w, index "LSI_c" = ph - saturation);
                index
            })
        });
        let rows = feed.map_or(Vec::new(), |water| {
            let today = index_by(Constants::Today, &water, temperature);
            let row = |constants| {
                let index = index_by(constants, &water, temperature);
                IndexBy {
                    constants,
                    feed: index,
                    reject: reject.map(|water| index_by(constants, &water, temperature)),
                    difference: index - today,
                }
            };
            Constants::ALL.map(row).into()
        });
        Indices {
            feed: of_feed.map(|found| found.0),
            ryznar: of_feed.map(|found| found.1),
            reject: of_reject,
            rows,
        }
    }
}
