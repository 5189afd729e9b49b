//! What can be done with the feed and at the reject valve: hot water mixed in, the reject to set.

use super::Plan;
use crate::engine::quantity::Temperature;
use crate::engine::sheet::{Known, Missing, Sentence, Sheet, Working};
use crate::trade::membrane::{
    COLD_FEED_TEMPERED, HOT_SIDE, RejectSetting, RejectSettings, Season, SeasonFlow, TEMPERED_WITHIN,
    TemperedFeed, Tempering, year_end,
};
use crate::trade::tap::{Compensated, ConductivityAt25, ConductivityFound};
use crate::trade::terms::{membrane, place};

impl Plan {
    /// The end of the year by itself, before hot water is mixed in.
    pub(super) fn end_of_year(
        &self,
        extreme: fn(f64, f64) -> f64,
        stated: Known<Option<Temperature>>,
        (field, name): (&'static str, &'static str),
    ) -> Known<Temperature> {
        let months = match &self.months {
            Ok(months) => months.as_deref(),
            Err(missing) => return Err(*missing),
        };
        let end = year_end(extreme, stated?, months, self.temperature?);
        Ok(end.ok_or(Missing::empty(field, name))?.end)
    }

    /// The coldest water of the tap.
    pub(super) fn coldest_tap(&self) -> Known<Temperature> {
        self.end_of_year(f64::min, self.coldest, ("coldest-temperature", membrane::COLDEST_TEMPERATURE.name))
    }

    /// The warmest water of the tap.
    pub(super) fn warmest_tap(&self) -> Known<Temperature> {
        self.end_of_year(f64::max, self.warmest, ("warmest-temperature", membrane::WARMEST_TEMPERATURE.name))
    }

    /// To what the feed is tempered: no warmer than the hot water at the valve, where that is known.
    pub(super) fn tempered_to(&self) -> Known<Option<Temperature>> {
        let (wanted, hot) = (self.tempered?, self.hot?);
        Ok(wanted.map(|wanted| hot.map_or(wanted, |hot| wanted.min(hot))))
    }

    /// How much hot water is mixed in, in the coldest weeks; nothing where the feed is as cold as the tap.
    pub(super) fn tempering(&self, seasons: &[SeasonFlow], w: &mut Working) -> Known<TemperedFeed> {
        let Some(mixed) = self.tempered? else {
            return Err(Missing::none_exists("the feed is not tempered"));
        };
        // they stand as long as the valve is in use, not only until it has helped
        w.caution(&COLD_FEED_TEMPERED);
        w.caution(&HOT_SIDE);
        if matches!(self.hot, Ok(None)) {
            w.assume(
                "hot-temperature",
                "the hot water temperature at the valve is not entered: it is assumed to be hot enough to temper the feed, all day long",
            );
        }
        if let Ok(Some(hot)) = self.hot
            && hot < mixed
        {
            let sentence = Sentence::plain(
                "the hot water ({hot}) is not hot enough to temper the feed to {mixed}: {hot} is counted",
            );
            w.warn(
                "hot-temperature",
                "hot-water-too-cool",
                sentence.quantity("hot", hot).quantity("mixed", mixed),
            );
        }
        let coldest = seasons.iter().find(|at| at.season == Season::Coldest);
        w.in_season(Season::Coldest.when(), |w| {
            w.stage(&[&TEMPERED_WITHIN], |w| {
                let sheet = Tempering {
                    cold: self.coldest_tap()?,
                    hot: self
                        .hot?
                        .ok_or(Missing::empty("hot-temperature", membrane::HOT_TEMPERATURE.name))?,
                    mixed,
                    flow: coldest.map_or(Err(super::stages::NO_SEASON), |at| at.feed),
                    highest: self.highest_feed_temperature,
                };
                sheet.run(w)
            })
        })
    }

    /// The reject to set so that recovery stays below the bound of the RO's instructions, where they set one.
    pub(super) fn reject_setting(&self, seasons: &[SeasonFlow], w: &mut Working) -> Known<RejectSettings> {
        let Some(highest) = self.highest_recovery? else {
            return Err(Missing::empty("highest-recovery", membrane::HIGHEST_RECOVERY.name));
        };
        let warmest = seasons.iter().find(|at| at.season == Season::Warmest);
        w.stage(&[], |w| {
            let not_known = |field, name| Missing::empty(field, name);
            let sheet = RejectSetting {
                product: self.product?.ok_or(not_known("product-flow", membrane::PRODUCT_FLOW.name))?,
                reject: self.reject,
                anchor: self
                    .flows_read_at()?
                    .ok_or(not_known("anchor-temperature", membrane::ANCHOR_TEMPERATURE.name))?,
                warmest: warmest.map_or(Err(super::stages::NO_SEASON), |at| at.temperature)?,
                highest,
                control: self.control?,
                forms: self.forms?,
                jug: self.jug_volume,
            };
            sheet.run(w)
        })
    }

    /// What the conductivity says of the dissolved salt.
    pub(super) fn salt(&self, w: &mut Working) -> Known<ConductivityFound> {
        w.stage(&[], |w| {
            let missing = Missing::empty("conductivity", place::CONDUCTIVITY_AT_TAP.name);
            let sheet = ConductivityAt25 {
                read: self.conductivity?.ok_or(missing)?,
                compensated: Compensated::At25,
                temperature: Err(Missing::not_known("", "")),
            };
            sheet.run(w)
        })
    }
}
