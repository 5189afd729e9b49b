//! The plan: does this RO fit this place? All stages joined along the water path; itself a sheet, without a formula.
//!
//! What may be left out is a `Known<Option<…>>`: left out, something is taken for it; entered and refused, it stops the
//! stages that would count with it, and those alone. Each stage is one call of its sheet, and what one stage lacks stops
//! that stage alone. Flows are taken at their highest, capacity at its lowest, each today and at both ends of the year,
//! and each judgement keeps its worst time.

pub mod causes;
pub mod changes;
mod day;
mod drained;
pub mod elsewhere;
mod feed;
mod filter_limit;
mod instructions;
mod outlets;
pub mod path;
mod place;
mod report;
mod stages;
mod used_up;
pub mod walk;

pub use drained::DrainedAt;
pub use filter_limit::FilterLimitAt;
pub use instructions::{COLDEST_FEED, FEED_AT_LEAST, FEED_AT_MOST, Newer};
pub use place::{BUILDING_DOSING, Disinfectant, Dosing, WaterSource, holds};
pub use report::ScaleAt;
pub use stages::{CarbonTimes, InletAt};
pub use used_up::{CarbonLifeAt, SoftenerAt};

use crate::engine::quantity::{
    Chlorine, Concentration, Conductivity, Current, Flow, Hardness, HardnessPerMetal, Length, Ph, Power,
    Pressure, PressureDifference, Ratio, ResinCapacity, Temperature, TemperatureDifference, Time, Voltage,
    Volume,
    kinds::{CHLORINE, CURRENT, FLOW, NUMBER, POWER, PRESSURE_DIFFERENCE, RATIO, TEMPERATURE, TIME, VOLUME},
};
use crate::engine::sheet::{Caution, Evaluate, Known, Stage, Stop, Term, Working, part, source};
use crate::sheet;
use crate::trade::carbon::{
    CARBON_LIFE, CarbonKind, FIVE_IN_FINAL, RatedFor, Rule, TEN_MINUTES, TWO_CARBONS,
};
use crate::trade::day::DAY_LONG_ENOUGH;
use crate::trade::drain::{BREAKER_LOAD, DRAIN_TAKES, Surplus};
use crate::trade::limits::LimitSet;
use crate::trade::machine::{MACHINE_HEATING, PRODUCT_COOL_ENOUGH, Rinses};
use crate::trade::membrane::scale::{CALCITE, GYPSUM, SILICA};
use crate::trade::membrane::{
    Allowance, CAPACITY, Contaminant, Control, FEED_WITHIN, FormBand, Forms, MonthFlow, MonthTemperature,
    RECOVERY_BOUND, SeasonFlow, TEMPERED_WITHIN,
};
use crate::trade::sediment::{CARTRIDGE_FLOW, FILTER_LIMIT};
use crate::trade::softener::{SOFTENED_WATER, SOFTENER_LASTS};
use crate::trade::tap::{Fitting, HOSE_RATED, Hose, INLET_PRESSURE, SALT, SALT_AT_MOST};
use crate::trade::terms::report::FeedResult;
use crate::trade::terms::{
    carbon, chlorine, cost, day as day_of, drain, machine, membrane, place as at_place, report as report_of,
    sediment, softener, tap,
};

static A_WATER_TEST_DECIDES: Caution = Caution {
    id: "a-water-test-decides",
    text: "This is an estimate. A water test decides. The RO's own instructions, the medical director, local codes and licensed trades take precedence. Facilities (estates) must approve the connection, backflow protection and drain.",
};

sheet! {
    /// Whether this RO fits this place: enough product water in the coldest weeks, enough pressure while it runs and flushes, enough carbon for the highest flow.
    Plan, "plan", "Does this RO fit this place?", Stage::Plan,
    sources: &[&source::COMMON_PRACTICE, &source::TAC_117_32, &source::MASS_BALANCE],
    cautions: &[&A_WATER_TEST_DECIDES],
    criteria: &[
        &BUILDING_DOSING, &INLET_PRESSURE, &HOSE_RATED, &CARTRIDGE_FLOW, &FILTER_LIMIT, &SOFTENER_LASTS, &SOFTENED_WATER, &TEN_MINUTES, &FIVE_IN_FINAL, &TWO_CARBONS, &CARBON_LIFE, &CAPACITY, &RECOVERY_BOUND,
        &CALCITE, &SILICA, &GYPSUM, &TEMPERED_WITHIN, &FEED_WITHIN, &COLDEST_FEED, &FEED_AT_MOST, &FEED_AT_LEAST, &MACHINE_HEATING, &PRODUCT_COOL_ENOUGH, &DRAIN_TAKES, &BREAKER_LOAD, &DAY_LONG_ENOUGH,
    ],
    inputs: {
        place_name         "place-name":              Known<Option<String>>                = at_place::PLACE_NAME,
        ro_name            "ro-name":                 Known<Option<String>>                = at_place::RO_NAME,
        source             "source":                  Known<Option<WaterSource>>           = at_place::SOURCE,
        dosing             "building-dosing":         Known<Dosing>                 = at_place::BUILDING_DOSING,
        disinfectant       "disinfectant":            Known<Option<Disinfectant>>          = at_place::DISINFECTANT,
        temperature        "tap-temperature":         Known<Option<Temperature>>            = tap::TAP_TEMPERATURE,
        coldest            "coldest-temperature":     Known<Option<Temperature>>           = membrane::COLDEST_TEMPERATURE,
        warmest            "warmest-temperature":     Known<Option<Temperature>>           = membrane::WARMEST_TEMPERATURE,
        shut               "shut-pressure":           Known<Pressure>               = tap::SHUT_PRESSURE,
        jug_volume         "jug-volume":              Known<Volume>                 = tap::JUG_VOLUME.assumed("enter the flow instead"),
        jug_time           "jug-time":                Known<Time>                   = tap::JUG_TIME.assumed("enter the flow instead"),
        open_flow          "open-flow":               Known<Option<Flow>>                   = tap::OPEN_FLOW,
        open_pressure      "open-pressure":           Known<Pressure>               = tap::OPEN_PRESSURE,
        total_chlorine     "total-chlorine":          Known<Chlorine>               = chlorine::TOTAL_CHLORINE,
        free_chlorine      "free-chlorine":           Known<Option<Chlorine>>              = chlorine::FREE_CHLORINE,
        hardness           "hardness":                Known<Option<Hardness>>              = at_place::HARDNESS_AT_TAP.assumed("from calcium and magnesium of the laboratory report, if there is one"),
        conductivity       "conductivity":            Known<Option<Conductivity>>          = at_place::CONDUCTIVITY_AT_TAP.assumed("no TDS estimate"),
        report             "feed-report":             Known<Option<Vec<FeedResult>>>       = report_of::FEED_REPORT.assumed("scale and contaminants are not known"),
        feed_ph            "feed-ph":                 Known<Ph>                     = report_of::FEED_PH,
        ph_temperature     "ph-temperature":          Known<Option<Temperature>>    = report_of::PH_TEMPERATURE,
        limits             "limit-set":               Known<Option<LimitSet>>       = report_of::LIMIT_SET,
        hoses              "hoses":                   Known<Option<Vec<Hose>>>             = Term::other("Hoses from the tap to the RO").assumed("none: their loss is part of the rest of the line"),
        carbon_kind        "carbon-kind":             Known<Option<CarbonKind>>            = at_place::CARBON_KIND,
        bed                "bed-volume":              Known<Volume>                 = carbon::BED_VOLUME,
        second_bed         "second-bed-volume":       Known<Option<Volume>>                = carbon::SECOND_BED_VOLUME,
        resin              "resin-volume":            Known<Option<Volume>>                = at_place::RESIN_VOLUME.assumed("no softener"),
        product            "product-flow":            Known<Option<Flow>>                   = membrane::PRODUCT_FLOW,
        reject             "reject-flow":             Known<Flow>                   = membrane::REJECT_FLOW,
        flush_reject       "flush-reject-flow":       Known<Flow>                   = membrane::FLUSH_REJECT_FLOW,
        least_inlet        "least-inlet-pressure":    Known<Pressure>               = tap::LEAST_INLET_PRESSURE,
        machines           "machines":                Known<f64>                    = machine::MACHINES,
        dialysate          "dialysate-flow":          Known<Flow>                   = machine::DIALYSATE_FLOW,
        peak               "peak-draw":               Known<Flow>                   = machine::PEAK_DRAW,
        control            "control":                 Known<Option<Control>>               = membrane::CONTROL,
        anchor             "anchor-temperature":      Known<Option<Temperature>>           = membrane::ANCHOR_TEMPERATURE.assumed("not known: a flow tells nothing of other water without the temperature of its own"),
        months             "months":                  Known<Option<Vec<MonthTemperature>>> = Term::other("Tap temperature through the year").assumed("only the coldest and the warmest water are judged"),
        rule               "rule":                    Known<Option<Rule>>                  = carbon::RULE.assumed("EBCT for granular carbon, a test before every session for blocks"),
        tempered           "tempered-temperature":    Known<Option<Temperature>>           = membrane::TEMPERED_TEMPERATURE,
        hot                "hot-temperature":         Known<Option<Temperature>>    = membrane::HOT_TEMPERATURE.assumed("hot enough for the tempered feed"),
        highest_feed_temperature "highest-feed-temperature": Known<Temperature>     = membrane::HIGHEST_FEED_TEMPERATURE,
        cartridges         "cartridges":              Known<Option<f64>>                   = sediment::CARTRIDGES,
        cartridge_length   "cartridge-length":        Known<Option<Length>>                = sediment::CARTRIDGE_LENGTH,
        guideline          "guideline-flow":          Known<Flow>                   = sediment::GUIDELINE_FLOW,
        filter_drop        "filter-drop":             Known<PressureDifference>     = tap::FILTER_DROP,
        filter_flow        "filter-drop-flow":        Known<Flow>                   = tap::FILTER_DROP_FLOW,
        filter_temperature "filter-drop-temperature": Known<Option<Temperature>>           = tap::FILTER_DROP_TEMPERATURE.assumed("not known: a drop tells nothing of other water without the temperature of its own"),
        change_drop        "filter-change-drop":      Known<PressureDifference>     = tap::FILTER_CHANGE_DROP,
        line_drop          "line-drop":               Known<PressureDifference>     = tap::LINE_DROP,
        line_flow          "line-drop-flow":          Known<Flow>                   = tap::LINE_DROP_FLOW,
        fittings           "fittings":                Known<Option<Vec<Fitting>>>          = Term::other("Fittings").assumed("none: their loss is part of the rest of the line"),
        rise               "rise":                    Known<Option<Length>>                = tap::RISE,
        lowest_shut        "lowest-shut-pressure":    Known<Option<Pressure>>              = tap::LOWEST_SHUT_PRESSURE,
        highest_shut       "highest-shut-pressure":   Known<Pressure>               = tap::HIGHEST_SHUT_PRESSURE,
        hose_rating        "hose-rating":             Known<Pressure>               = tap::HOSE_RATING,
        rinses             "rinses":                  Known<Option<Rinses>>                = machine::RINSES,
        session_time       "session-time":            Known<Time>                   = machine::SESSION_TIME,
        sessions           "sessions":                Known<Option<f64>>            = machine::SESSIONS.assumed("as many as fit in the hours available"),
        set_up             "set-up-time":             Known<Time>                   = day_of::SET_UP_TIME,
        started            "set-up-running-time":     Known<Option<Time>>           = day_of::SET_UP_RUNNING_TIME.assumed("the time before and after the session in all is counted"),
        rinse              "rinse-time":              Known<Option<Time>>           = day_of::RINSE_TIME,
        around             "time-around-session":     Known<Time>                   = day_of::TIME_AROUND_SESSION,
        turnaround         "turnaround-time":         Known<Time>                   = day_of::TURNAROUND_TIME,
        day_hours          "day-hours":               Known<Time>                   = day_of::DAY_HOURS,
        highest_chlorine   "highest-total-chlorine":  Known<Option<Chlorine>>              = at_place::HIGHEST_TOTAL_CHLORINE.assumed("the reading at the tap"),
        resin_capacity     "resin-capacity":          Known<Option<ResinCapacity>> = softener::CAPACITY.assumed("not known: the softener is not computed"),
        iron               "iron":                    Known<Option<Concentration>> = softener::IRON,
        iron_factor        "iron-factor":             Known<Option<HardnessPerMetal>> = softener::IRON_FACTOR,
        daily_running      "daily-running-time":      Known<Option<Time>> = softener::DAILY_RUNNING_TIME.assumed("from the day's sessions"),
        regeneration       "regeneration-interval":   Known<Time> = softener::REGENERATION_INTERVAL,
        softened           "hardness-after-softener": Known<Hardness> = softener::HARDNESS_AFTER,
        session_running    "session-running-time":    Known<Option<Time>> = carbon::SESSION_RUNNING_TIME.assumed("the session and the running before and after it"),
        rated_for          "rated-disinfectant":      Known<RatedFor> = carbon::RATED_DISINFECTANT,
        rated              "rated-volume":            Known<Volume> = carbon::RATED_VOLUME,
        rated_flow         "rated-flow":              Known<Flow> = carbon::RATED_FLOW,
        rated_in           "rated-inlet":             Known<Chlorine> = carbon::RATED_INLET,
        rated_out          "rated-outlet":            Known<Chlorine> = carbon::RATED_OUTLET,
        label              "label-flow":              Known<Option<Flow>>                  = membrane::LABEL_FLOW,
        pump               "pump-pressure":           Known<Pressure>               = membrane::PUMP_PRESSURE,
        limit              "pressure-limit":          Known<Pressure>               = membrane::PRESSURE_LIMIT,
        highest_recovery   "highest-recovery":        Known<Option<Ratio>>                 = membrane::HIGHEST_RECOVERY,
        forms              "forms":                   Known<Option<Forms>>                 = membrane::FORMS,
        fouling            "fouling-allowance":       Known<Option<Ratio>>                 = membrane::FOULING_ALLOWANCE,
        margin             "demand-margin":           Known<Option<f64>>                   = machine::DEMAND_MARGIN,
        heater             "heater-power":            Known<Power>                         = machine::HEATER_POWER,
        dialysate_temperature "dialysate-temperature": Known<Option<Temperature>>          = machine::DIALYSATE_TEMPERATURE,
        heat_returned      "heat-returned":           Known<Option<Ratio>>                 = machine::HEAT_RETURNED,
        highest_inlet_temperature "highest-inlet-temperature": Known<Temperature>          = machine::HIGHEST_INLET_TEMPERATURE,
        pump_heat          "pump-heat":               Known<Option<TemperatureDifference>> = machine::PUMP_HEAT.assumed("2 °C, common practice, no source"),
        newer              "newer-water-data":        Known<Option<Newer>>                 = at_place::NEWER,
        manganese          "manganese":               Known<Option<Concentration>>         = softener::MANGANESE.assumed("from the laboratory report, if there is one"),
        turbidity          "turbidity":               Known<f64>                           = at_place::TURBIDITY,
        density_index      "feed-sdi":                Known<f64>                           = at_place::FEED_SDI,
        inlet_chlorine     "inlet-free-chlorine":     Known<Option<Chlorine>>              = at_place::INLET_FREE_CHLORINE,
        highest_iron       "highest-feed-iron":       Known<Option<Concentration>>         = at_place::HIGHEST_FEED_IRON,
        highest_manganese  "highest-feed-manganese":  Known<Option<Concentration>>         = at_place::HIGHEST_FEED_MANGANESE,
        highest_turbidity  "highest-feed-turbidity":  Known<Option<f64>>                   = at_place::HIGHEST_FEED_TURBIDITY,
        highest_index      "highest-feed-sdi":        Known<Option<f64>>                   = at_place::HIGHEST_FEED_SDI,
        highest_inlet_chlorine "highest-feed-free-chlorine": Known<Option<Chlorine>>       = at_place::HIGHEST_FEED_FREE_CHLORINE,
        lowest_ph          "lowest-feed-ph":          Known<Option<Ph>>                    = at_place::LOWEST_FEED_PH,
        highest_ph         "highest-feed-ph":         Known<Option<Ph>>                    = at_place::HIGHEST_FEED_PH,
        highest_hardness   "highest-feed-hardness":   Known<Option<Hardness>>              = at_place::HIGHEST_FEED_HARDNESS,
        lowest_feed_temperature "lowest-feed-temperature": Known<Option<Temperature>>      = at_place::LOWEST_FEED_TEMPERATURE,
        breaker_rating     "breaker-rating":          Known<Current>                       = drain::BREAKER_RATING,
        voltage            "supply-voltage":          Known<Voltage>                       = drain::SUPPLY_VOLTAGE,
        ro_current         "ro-current":              Known<Current>                       = drain::RO_CURRENT,
        machine_current    "machine-current":         Known<Option<Current>>               = drain::MACHINE_CURRENT,
        other_current      "other-current":           Known<Option<Current>>               = drain::OTHER_CURRENT,
        continuous_share   "continuous-share":        Known<Option<Ratio>>                 = drain::CONTINUOUS_SHARE,
        drain_takes        "drain-flow":              Known<Flow>                   = drain::DRAIN_FLOW,
        effluent           "machine-effluent":        Known<Option<Flow>>           = drain::MACHINE_EFFLUENT.assumed("the required product flow"),
        surplus            "surplus":                 Known<Option<Surplus>>        = drain::SURPLUS,
        water_price        "water-price":             Known<f64>                    = cost::WATER_PRICE,
        drain_price        "drain-price":             Known<Option<f64>>            = cost::DRAIN_PRICE,
    }
    outputs Outputs: {
        demand            "demand":                      Known<Flow>        = Term::number(&FLOW, "Required product flow", "Q_need"),
        clean             "product-coldest":             Known<Flow>        = Term::number(&FLOW, "Product flow in the coldest water, clean membrane", "Q_p"),
        capacity          "capacity-coldest":            Known<Flow>        = Term::number(&FLOW, "Product flow in the coldest water, after allowances", "Q_cap"),
        lowest            "lowest-workable-temperature": Known<Temperature> = Term::number(&TEMPERATURE, "Lowest workable water temperature", "T_min"),
        feed              "feed-warmest":                Known<Flow>        = Term::number(&FLOW, "Highest feed flow, running", "Q_f"),
        flush             "flush-warmest":               Known<Flow>        = Term::number(&FLOW, "Highest feed flow, in flush", "Q_flush"),
        recovery          "recovery-warmest":            Known<Ratio>       = Term::number(&RATIO, "Recovery in the warmest water", "Y"),
        combined          "combined-chlorine":           Known<Chlorine>    = Term::number(&CHLORINE, "Combined chlorine at the tap (chloramine)", "CC"),
        cartridges_needed "needed-ten-inch-equivalents": Known<f64>         = Term::number(&NUMBER, "10-inch lengths of sediment cartridge needed", "n_need"),
        filter_limit      "lowest-filter-limit":         Known<PressureDifference> = Term::number(&PRESSURE_DIFFERENCE, "Highest pressure drop of the sediment filter for this room, all year", "Δp_limit"),
        low_salt          "low-salt":                    Known<Concentration> = SALT,
        high_salt         "high-salt":                   Known<Concentration> = SALT_AT_MOST,
        needed_reject     "needed-reject-flow":          Known<Flow>        = Term::number(&FLOW, "Reject flow to set for the recovery limit, at least", "Q_c,set"),
        reject_jug        "reject-jug-time":             Known<Time>        = Term::number(&TIME, "Time to fill the jug with reject, at most", "t_jug").units("s", "s"),
        hot_share         "hot-share":                   Known<Ratio>       = Term::number(&RATIO, "Hot water share in the coldest weeks", "s_h"),
        hot_flow          "hot-flow":                    Known<Flow>        = Term::number(&FLOW, "Hot water flow in the coldest weeks", "Q_h"),
        line_spare        "line-spare":                  Known<PressureDifference> = Term::number(&PRESSURE_DIFFERENCE, "Pressure drop left for filter and rest of the line, all year", "Δp_spare"),
        allowances        "allowances":                  Vec<Allowance>     = Term::other("Allowances"),
        band              "form-band":                   Vec<FormBand>      = Term::other("Spread of the temperature correction forms"),
        seasons           "seasons":                     Vec<SeasonFlow>    = Term::other("Highest flows, today and in the coldest and warmest water"),
        inlet             "inlet":                       Vec<InletAt>       = Term::other("Pressure at the RO inlet"),
        filter_limits     "filter-limits":               Vec<FilterLimitAt> = Term::other("Highest pressure drop of the sediment filter for this room"),
        carbon            "carbon":                      Vec<CarbonTimes>   = Term::other("Empty bed contact time (EBCT)"),
        softener_hours    "softener-hours":              Known<Time>        = Term::number(&TIME, "Running time until the softener is used up, at the highest flow", "t").units("h", "h"),
        softener          "softener":                    Vec<SoftenerAt>    = Term::other("Softener life between regenerations"),
        carbon_life       "carbon-life":                 Vec<CarbonLifeAt>  = Term::other("Carbon life"),
        scale             "scale":                       Vec<ScaleAt>       = Term::other("Scale in the reject, coldest and warmest water"),
        contaminants      "contaminants":                Known<Vec<Contaminant>> = Term::other("Contaminants of the report, and what is expected in the product water"),
        inlet_temperature "inlet-temperature":           Known<Temperature> = Term::number(&TEMPERATURE, "Product water at the machine in the warmest weeks, with pump heat", "T_in"),
        heating           "needed-heater-power":         Known<Power>       = Term::number(&POWER, "Heater power needed for the coldest water", "P"),
        load              "load-current":                Known<Current>     = Term::number(&CURRENT, "Total current on the breaker", "I"),
        drained           "drained":                     Vec<DrainedAt>     = Term::other("Flow to the drain"),
        sessions_fit      "sessions-that-fit":           Known<f64>         = Term::number(&NUMBER, "Sessions that fit the day, all machines", "n_fit").whole(),
        day_time          "day-time":                    Known<Time>        = Term::number(&TIME, "Time for the day's sessions", "t_all").units("h", "h"),
        spare_time        "spare-time":                  Known<Time>        = Term::number(&TIME, "Hours left over", "Δt").units("h", "h"),
        day_feed          "day-feed-volume":             Known<Volume>      = Term::number(&VOLUME, "Feed water per day, without flushes", "V_f"),
        carbon_sessions   "carbon-whole-sessions":       Known<f64>         = Term::number(&NUMBER, "Carbon change, at the latest after whole sessions", "n_c").whole(),
        carbon_days       "carbon-days":                 Known<Time>        = Term::number(&TIME, "Carbon change, at the latest after days", "t_carbon").units("d", "d"),
        bought            "bought-volume":               Known<Volume>      = Term::number(&VOLUME, "Feed water per session, without flushes", "V_f"),
        cost              "session-cost":                Known<f64>         = Term::number(&NUMBER, "Cost of the water per session, in the currency of the price", "C"),
        months            "months":                      Known<Vec<MonthFlow>>     = Term::other("By month"),
    }
}

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
        let warmest = seasons.iter().find(|season| season.season == crate::trade::membrane::Season::Warmest);
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
