//! The plan: does this RO fit this place? All stages joined along the water path; itself a sheet, without a formula.
//!
//! What may be left out is a `Known<Option<…>>`: left out, something is taken for it; entered and refused, it stops the
//! stages that would count with it, and those alone. Each stage is one call of its sheet, and what one stage lacks stops
//! that stage alone. Flows are taken at their highest, capacity at its lowest, each today and at both ends of the year,
//! and each judgement keeps its worst time.

pub mod causes;
pub mod changes;
mod day;
mod declared;
mod drained;
mod feed;
pub mod figures;
mod filter_limit;
mod instructions;
mod outlets;
pub mod path;
mod place;
mod report;
mod stages;
mod used_up;
pub mod walk;

pub use declared::{Outputs, Plan};
pub use drained::DrainedAt;
pub use filter_limit::FilterLimitAt;
pub use instructions::{COLDEST_FEED, FEED_AT_LEAST, FEED_AT_MOST, Newer};
pub use place::{BUILDING_DOSING, Disinfectant, Dosing, WaterSource, holds};
pub use report::ScaleAt;
pub use stages::{CarbonTimes, InletAt};
pub use used_up::{CarbonLifeAt, SoftenerAt};

use crate::engine::quantity::Flow;
use crate::engine::sheet::{Evaluate, Known, Stop, Working, part};
use crate::trade::membrane::{FormBand, Season, SeasonFlow};

impl Evaluate for Plan {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        place::judge_dosing(self.dosing, w);
        place::caution_source(self.source.ok().flatten(), w);
        place::caution_colour(self.disinfectant.ok().flatten(), self.total_chlorine, w);
        let combined = self.chlorine(w);
        let demands = self.machines(w);
        let demand = part(&demands, |demands| demands.demand);
        let year = self.membrane(demand, w);
        let seasons = self.seasons(&year);
        let inlet = self.inlet(&seasons, w);
        let filter_limits = self.filter_limits(&seasons, &inlet, w);
        let needed = self.sediment(&seasons, w);
        let day = self.day(&seasons, &demands, w);
        let water = self.hard_water(w);
        let before_softener = w.checks().len();
        let softener = self.softener(&seasons, water, &day, w);
        let behind = self.behind_softener(&w.checks()[before_softener..]);
        let carbon = self.carbon(&seasons, w);
        let carbon_life = self.carbon_life(&seasons, &day, w);
        let salt = self.salt(w);
        let scale = self.scale(&seasons, behind, w);
        let setting = self.reject_setting(&seasons, w);
        let hot = self.tempering(&seasons, w);
        let cost = self.cost(&day, &demands, w);
        let (heating, inlet_temperature) = self.heating(w);
        let change = self.change_of_carbon(&carbon_life, &day, w);
        let drained = self.drained(&seasons, demand, w);
        let load = self.breaker(w);
        let warmest = seasons.iter().find(|season| season.season == Season::Warmest);
        let warm = |flow: fn(&SeasonFlow) -> Known<Flow>| warmest.map_or(Err(stages::NO_SEASON), flow);
        let band = match &year {
            Ok(year) => year.band.clone(),
            Err(missing) => FormBand::unknown(*missing),
        };
        let recovery = warmest.map_or(Err(stages::NO_SEASON), |season| season.recovery);
        self.bound_recovery(recovery, w);
        let contaminants = self.contaminants(recovery, behind, w);
        self.feed_as_instructed(water, behind, w);
        Ok(Outputs {
            demand,
            clean: part(&year, |year| year.clean),
            capacity: part(&year, |year| year.capacity),
            lowest: part(&year, |year| year.lowest),
            feed: warm(|season| season.feed),
            flush: warm(|season| season.flush),
            recovery,
            combined,
            cartridges_needed: needed,
            allowances: self.allowances(&year, &demands),
            band,
            filter_limit: filter_limit::lowest(filter_limits.iter().map(|at| at.limit)),
            line_spare: filter_limit::lowest(inlet.iter().map(|at| at.to_spare)),
            filter_limits,
            inlet,
            carbon,
            softener_hours: used_up::shortest(&softener),
            softener,
            carbon_life,
            low_salt: part(&salt, |salt| salt.low),
            high_salt: part(&salt, |salt| salt.high),
            needed_reject: part(&setting, |setting| setting.needed),
            reject_jug: part(&setting, |setting| setting.jug_time),
            hot_share: part(&hot, |hot| hot.share),
            hot_flow: part(&hot, |hot| hot.hot_flow),
            scale,
            contaminants,
            sessions_fit: part(&day, |day| day.fit),
            day_time: part(&day, |day| day.taken),
            spare_time: part(&day, |day| day.spare),
            day_course: Self::course_of_day(&day, change),
            day_feed: part(&day, |day| day.feed),
            carbon_sessions: change.map(|change| change.whole),
            carbon_days: change.and_then(|change| change.days),
            bought: part(&cost, |cost| Ok(cost.bought)),
            cost: part(&cost, |cost| cost.cost),
            inlet_temperature,
            heating,
            load,
            drained,
            months: year.map(|year| year.months),
            seasons,
        })
    }
}
