//! What the plan asks and answers. The groups of its inputs are the walk: each input says what it belongs to, which sheet
//! works it out, and, of a reading that holds in its own water alone, which field keeps the temperature of that water.

use super::place::{BUILDING_DOSING, Disinfectant, Dosing, WaterSource};
use super::*;
use crate::engine::quantity::{
    Chlorine, Concentration, Conductivity, Current, Flow, Hardness, HardnessPerMetal, Length, Ph, Power,
    Pressure, PressureDifference, Ratio, ResinCapacity, Temperature, TemperatureDifference, Time, Voltage,
    Volume,
    kinds::{CHLORINE, CURRENT, FLOW, NUMBER, POWER, PRESSURE_DIFFERENCE, RATIO, TEMPERATURE, TIME, VOLUME},
};
use crate::engine::sheet::{Caution, Known, Stage, Term, source};
use crate::sheet_of_groups;
use crate::trade::carbon::{
    CARBON_LIFE, CarbonKind, FIVE_IN_FINAL, RatedFor, Rule, TEN_MINUTES, TWO_CARBONS,
};
use crate::trade::day::{DAY_LONG_ENOUGH, HoursOfSession};
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

sheet_of_groups! {
    /// Whether this RO fits this place: enough product water in the coldest weeks, enough pressure while it runs and flushes, enough carbon for the highest flow.
    Plan, "plan", "Does this RO fit this place?", Stage::Plan,
    also: &["new room", "room check"],
    sources: &[&source::COMMON_PRACTICE, &source::TAC_117_32, &source::MASS_BALANCE],
    cautions: &[&A_WATER_TEST_DECIDES],
    criteria: &[
        &BUILDING_DOSING, &INLET_PRESSURE, &HOSE_RATED, &CARTRIDGE_FLOW, &FILTER_LIMIT, &SOFTENER_LASTS, &SOFTENED_WATER, &TEN_MINUTES, &FIVE_IN_FINAL, &TWO_CARBONS, &CARBON_LIFE, &CAPACITY, &RECOVERY_BOUND,
        &CALCITE, &SILICA, &GYPSUM, &TEMPERED_WITHIN, &FEED_WITHIN, &COLDEST_FEED, &FEED_AT_MOST, &FEED_AT_LEAST, &MACHINE_HEATING, &PRODUCT_COOL_ENOUGH, &DRAIN_TAKES, &BREAKER_LOAD, &DAY_LONG_ENOUGH,
    ],
    figures: &[&super::figures::WATER_PATH, &super::figures::STAIRS, &super::figures::DAY_OF_PLACE],
    view at_the_tap: {
        "the-place", "The place", "Ask facilities (estates)." {
            Place place_name   "place-name":      Known<Option<String>>       = at_place::PLACE_NAME;
            Ro    ro_name      "ro-name":         Known<Option<String>>       = at_place::RO_NAME;
            Place source       "source":          Known<Option<WaterSource>>  = at_place::SOURCE;
            Place dosing       "building-dosing": Known<Dosing>               = at_place::BUILDING_DOSING;
            Place disinfectant "disinfectant":    Known<Option<Disinfectant>> = at_place::DISINFECTANT;
        }
        "the-water", "Water temperature", "Let the tap run until the reading is steady." {
            Place temperature "tap-temperature":     Known<Option<Temperature>> = tap::TAP_TEMPERATURE;
            Place coldest     "coldest-temperature": Known<Option<Temperature>> = membrane::COLDEST_TEMPERATURE, by "mains-temperature" "coldest-temperature";
            Place warmest     "warmest-temperature": Known<Option<Temperature>> = membrane::WARMEST_TEMPERATURE, by "mains-temperature" "warmest-temperature";
        }
        "the-tap", "Tap pressure and flow", "A gauge on the tap, and a timed jug test (bucket test)." {
            Place shut          "shut-pressure": Known<Pressure>     = tap::SHUT_PRESSURE;
            Place jug_volume    "jug-volume":    Known<Volume>       = tap::JUG_VOLUME.assumed("enter the flow instead");
            Place jug_time      "jug-time":      Known<Time>         = tap::JUG_TIME.assumed("enter the flow instead");
            Place open_flow     "open-flow":     Known<Option<Flow>> = tap::OPEN_FLOW, by "timed-jug" "timed-flow";
            Place open_pressure "open-pressure": Known<Pressure>     = tap::OPEN_PRESSURE;
        }
        "the-tests", "Water tests", "A chlorine test, a hardness drop test, a conductivity meter." {
            Place total_chlorine "total-chlorine": Known<Chlorine>             = chlorine::TOTAL_CHLORINE;
            Place free_chlorine  "free-chlorine":  Known<Option<Chlorine>>     = chlorine::FREE_CHLORINE;
            Place hardness       "hardness":       Known<Option<Hardness>>     = at_place::HARDNESS_AT_TAP.assumed("from calcium and magnesium of the laboratory report, if there is one"), by "hardness" "hardness-by-drops";
            Place conductivity   "conductivity":   Known<Option<Conductivity>> = at_place::CONDUCTIVITY_AT_TAP.assumed("no TDS estimate"), by "conductivity" "conductivity";
        }
        "the-hose", "Hose", "From the tap to the RO." {
            Place hoses "hoses": Known<Option<Vec<Hose>>> = Term::other("Hoses from the tap to the RO").assumed("none: their loss is part of the rest of the line");
        }
        "the-cart", "Carbon and softener", "From the labels on the vessels or cartridges." {
            Ro carbon_kind "carbon-kind":       Known<Option<CarbonKind>> = at_place::CARBON_KIND;
            Ro bed         "bed-volume":        Known<Volume>             = carbon::BED_VOLUME, by "carbon-vessel" "bed-volume";
            Ro second_bed  "second-bed-volume": Known<Option<Volume>>     = carbon::SECOND_BED_VOLUME, by "carbon-vessel" "bed-volume";
            Ro resin       "resin-volume":      Known<Option<Volume>>     = at_place::RESIN_VOLUME.assumed("no softener");
        }
        "the-ro", "RO", "As it runs now. Without a flow meter, use a timed jug test." {
            Ro product      "product-flow":         Known<Option<Flow>>        = membrane::PRODUCT_FLOW, by "timed-jug" "timed-flow", water "anchor-temperature";
            Ro reject       "reject-flow":          Known<Flow>                = membrane::REJECT_FLOW, by "timed-jug" "timed-flow";
            Ro anchor       "anchor-temperature":   Known<Option<Temperature>> = membrane::ANCHOR_TEMPERATURE.assumed("not known: without its temperature, a flow says nothing about other water temperatures");
            Ro flush_reject "flush-reject-flow":    Known<Flow>                = membrane::FLUSH_REJECT_FLOW, by "timed-jug" "timed-flow";
            Ro least_inlet  "least-inlet-pressure": Known<Pressure>            = tap::LEAST_INLET_PRESSURE;
        }
        "the-machines", "Dialysis machines", "What they draw. The prescriber decides the dialysate flow." {
            Place machines  "machines":       Known<f64>  = machine::MACHINES;
            Place dialysate "dialysate-flow": Known<Flow> = machine::DIALYSATE_FLOW;
            Place peak      "peak-draw":      Known<Flow> = machine::PEAK_DRAW;
        }
    }
    view in_detail: {
        "control", "RO control and limits", "From the RO's instructions." {
            Ro control          "control":          Known<Option<Control>> = membrane::CONTROL;
            Ro label            "label-flow":       Known<Option<Flow>>    = membrane::LABEL_FLOW;
            Ro pump             "pump-pressure":    Known<Pressure>        = membrane::PUMP_PRESSURE;
            Ro limit            "pressure-limit":   Known<Pressure>        = membrane::PRESSURE_LIMIT;
            Ro highest_recovery "highest-recovery": Known<Option<Ratio>>   = membrane::HIGHEST_RECOVERY;
        }
        "year", "The year", "From the utility, a building log, or your own readings over a year." {
            Place months           "months":                 Known<Option<Vec<MonthTemperature>>> = Term::other("Tap temperature through the year").assumed("only the coldest and the warmest water are judged");
            Place highest_chlorine "highest-total-chlorine": Known<Option<Chlorine>>              = at_place::HIGHEST_TOTAL_CHLORINE.assumed("the reading at the tap");
            Place tempered         "tempered-temperature":   Known<Option<Temperature>>           = membrane::TEMPERED_TEMPERATURE;
            Place hot              "hot-temperature":        Known<Option<Temperature>>           = membrane::HOT_TEMPERATURE.assumed("hot enough for the tempered feed");
        }
        "laboratory", "Laboratory report of the feed water", "From the water supplier, or from your own sample. It is used for hardness, scale and contaminants." {
            Place report         "feed-report":    Known<Option<Vec<FeedResult>>> = report_of::FEED_REPORT.assumed("scale and contaminants are not known");
            Place feed_ph        "feed-ph":        Known<Ph>                      = report_of::FEED_PH;
            Place ph_temperature "ph-temperature": Known<Option<Temperature>>     = report_of::PH_TEMPERATURE;
            Place limits         "limit-set":      Known<Option<LimitSet>>        = report_of::LIMIT_SET;
        }
        "feed-limits", "Feed water limits of the RO", "From the RO's instructions. What they do not limit is not checked." {
            Ro highest_feed_temperature "highest-feed-temperature":   Known<Temperature>           = membrane::HIGHEST_FEED_TEMPERATURE;
            Ro lowest_feed_temperature  "lowest-feed-temperature":    Known<Option<Temperature>>   = at_place::LOWEST_FEED_TEMPERATURE;
            Ro highest_hardness         "highest-feed-hardness":      Known<Option<Hardness>>      = at_place::HIGHEST_FEED_HARDNESS;
            Ro highest_iron             "highest-feed-iron":          Known<Option<Concentration>> = at_place::HIGHEST_FEED_IRON;
            Ro highest_manganese        "highest-feed-manganese":     Known<Option<Concentration>> = at_place::HIGHEST_FEED_MANGANESE;
            Ro highest_turbidity        "highest-feed-turbidity":     Known<Option<f64>>           = at_place::HIGHEST_FEED_TURBIDITY;
            Ro highest_index            "highest-feed-sdi":           Known<Option<f64>>           = at_place::HIGHEST_FEED_SDI;
            Ro highest_inlet_chlorine   "highest-feed-free-chlorine": Known<Option<Chlorine>>      = at_place::HIGHEST_FEED_FREE_CHLORINE;
            Ro lowest_ph                "lowest-feed-ph":             Known<Option<Ph>>            = at_place::LOWEST_FEED_PH;
            Ro highest_ph               "highest-feed-ph":            Known<Option<Ph>>            = at_place::HIGHEST_FEED_PH;
        }
        "feed-tests", "More tests of the feed water", "Needed only where the RO's instructions set a limit." {
            Place iron           "iron":                Known<Option<Concentration>> = softener::IRON;
            Place manganese      "manganese":           Known<Option<Concentration>> = softener::MANGANESE.assumed("from the laboratory report, if there is one");
            Place turbidity      "turbidity":           Known<f64>                   = at_place::TURBIDITY;
            Place density_index  "feed-sdi":            Known<f64>                   = at_place::FEED_SDI, by "silt-density-index" "index";
            Place inlet_chlorine "inlet-free-chlorine": Known<Option<Chlorine>>      = at_place::INLET_FREE_CHLORINE;
            Place newer          "newer-water-data":    Known<Option<Newer>>         = at_place::NEWER;
        }
        "filter", "Sediment filter", "Two gauges, one before and one after it." {
            Ro cartridges         "cartridges":              Known<Option<f64>>         = sediment::CARTRIDGES;
            Ro cartridge_length   "cartridge-length":        Known<Option<Length>>      = sediment::CARTRIDGE_LENGTH;
            Ro guideline          "guideline-flow":          Known<Flow>                = sediment::GUIDELINE_FLOW;
            Ro filter_drop        "filter-drop":             Known<PressureDifference>  = tap::FILTER_DROP, water "filter-drop-temperature";
            Ro filter_flow        "filter-drop-flow":        Known<Flow>                = tap::FILTER_DROP_FLOW;
            Ro filter_temperature "filter-drop-temperature": Known<Option<Temperature>> = tap::FILTER_DROP_TEMPERATURE.assumed("not known: without its temperature, a pressure drop says nothing about other water temperatures");
            Ro change_drop        "filter-change-drop":      Known<PressureDifference>  = tap::FILTER_CHANGE_DROP;
        }
        "line", "The rest of the line", "Everything else between tap and RO that loses pressure." {
            Ro    line_drop    "line-drop":             Known<PressureDifference>   = tap::LINE_DROP;
            Ro    line_flow    "line-drop-flow":        Known<Flow>                 = tap::LINE_DROP_FLOW;
            Place fittings     "fittings":              Known<Option<Vec<Fitting>>> = Term::other("Fittings").assumed("none: their loss is part of the rest of the line");
            Place rise         "rise":                  Known<Option<Length>>       = tap::RISE;
            Place lowest_shut  "lowest-shut-pressure":  Known<Option<Pressure>>     = tap::LOWEST_SHUT_PRESSURE;
            Place highest_shut "highest-shut-pressure": Known<Pressure>             = tap::HIGHEST_SHUT_PRESSURE;
            Place hose_rating  "hose-rating":           Known<Pressure>             = tap::HOSE_RATING;
        }
        "carbon-rule", "Carbon rule", "What this place relies on." {
            Place rule "rule": Known<Option<Rule>> = carbon::RULE.assumed("EBCT for granular carbon, a test before every session for blocks");
        }
        "carbon-label", "Carbon label", "From the cartridge label or its test report." {
            Ro rated_for  "rated-disinfectant": Known<RatedFor> = carbon::RATED_DISINFECTANT;
            Ro rated      "rated-volume":       Known<Volume>   = carbon::RATED_VOLUME;
            Ro rated_flow "rated-flow":         Known<Flow>     = carbon::RATED_FLOW;
            Ro rated_in   "rated-inlet":        Known<Chlorine> = carbon::RATED_INLET;
            Ro rated_out  "rated-outlet":       Known<Chlorine> = carbon::RATED_OUTLET;
        }
        "softener", "Softener", "From its label, and how it is set." {
            Ro    resin_capacity "resin-capacity":          Known<Option<ResinCapacity>>    = softener::CAPACITY.assumed("not known: the softener is not computed");
            Ro    regeneration   "regeneration-interval":   Known<Time>                     = softener::REGENERATION_INTERVAL;
            Place softened       "hardness-after-softener": Known<Hardness>                 = softener::HARDNESS_AFTER, by "hardness" "hardness-by-drops";
            Place iron_factor    "iron-factor":             Known<Option<HardnessPerMetal>> = softener::IRON_FACTOR;
        }
        "sessions", "Sessions", "How a usual day runs." {
            Place rinses          "rinses":               Known<Option<Rinses>> = machine::RINSES;
            Place session_time    "session-time":         Known<Time>           = machine::SESSION_TIME;
            Place set_up          "set-up-time":          Known<Time>           = day_of::SET_UP_TIME;
            Place started         "set-up-running-time":  Known<Option<Time>>   = day_of::SET_UP_RUNNING_TIME.assumed("the time before and after the session in all is counted");
            Place rinse           "rinse-time":           Known<Option<Time>>   = day_of::RINSE_TIME;
            Place around          "time-around-session":  Known<Time>           = day_of::TIME_AROUND_SESSION;
            Place turnaround      "turnaround-time":      Known<Time>           = day_of::TURNAROUND_TIME;
            Place sessions        "sessions":             Known<Option<f64>>    = machine::SESSIONS.assumed("as many as fit in the hours available");
            Place day_hours       "day-hours":            Known<Time>           = day_of::DAY_HOURS;
            Place session_running "session-running-time": Known<Option<Time>>   = carbon::SESSION_RUNNING_TIME.assumed("the session and the running before and after it");
            Place daily_running   "daily-running-time":   Known<Option<Time>>   = softener::DAILY_RUNNING_TIME.assumed("from the day's sessions");
        }
        "heating", "Heating the dialysate", "From the dialysis machine's instructions. The prescriber decides the temperature." {
            Place heater                    "heater-power":              Known<Power>                         = machine::HEATER_POWER;
            Place dialysate_temperature     "dialysate-temperature":     Known<Option<Temperature>>           = machine::DIALYSATE_TEMPERATURE;
            Place heat_returned             "heat-returned":             Known<Option<Ratio>>                 = machine::HEAT_RETURNED;
            Place highest_inlet_temperature "highest-inlet-temperature": Known<Temperature>                   = machine::HIGHEST_INLET_TEMPERATURE;
            Ro    pump_heat                 "pump-heat":                 Known<Option<TemperatureDifference>> = machine::PUMP_HEAT.assumed("2 °C, common practice, no source");
        }
        "socket", "Electrical outlet (socket)", "From the labels of the devices, and the rating on the breaker." {
            Place breaker_rating   "breaker-rating":   Known<Current>         = drain::BREAKER_RATING;
            Place voltage          "supply-voltage":   Known<Voltage>         = drain::SUPPLY_VOLTAGE;
            Ro    ro_current       "ro-current":       Known<Current>         = drain::RO_CURRENT;
            Place machine_current  "machine-current":  Known<Option<Current>> = drain::MACHINE_CURRENT;
            Place other_current    "other-current":    Known<Option<Current>> = drain::OTHER_CURRENT;
            Place continuous_share "continuous-share": Known<Option<Ratio>>   = drain::CONTINUOUS_SHARE;
        }
        "drain", "Drain", "A bucket and a watch, and a look at where the lines end." {
            Place drain_takes "drain-flow":       Known<Flow>            = drain::DRAIN_FLOW;
            Place effluent    "machine-effluent": Known<Option<Flow>>    = drain::MACHINE_EFFLUENT.assumed("the required product flow");
            Place surplus     "surplus":          Known<Option<Surplus>> = drain::SURPLUS;
        }
        "cost", "Price of the water", "From the water bill." {
            Place water_price "water-price": Known<f64>         = cost::WATER_PRICE;
            Place drain_price "drain-price": Known<Option<f64>> = cost::DRAIN_PRICE;
        }
        "allowances", "Allowances", "Added on top of the numbers. Each can be changed." {
            Place forms   "forms":             Known<Option<Forms>> = membrane::FORMS;
            Place fouling "fouling-allowance": Known<Option<Ratio>> = membrane::FOULING_ALLOWANCE;
            Place margin  "demand-margin":     Known<Option<f64>>   = machine::DEMAND_MARGIN;
        }
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
        band              "form-band":                   Vec<FormBand>      = Term::other("Spread of the temperature correction methods"),
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
        day_course        "day-course":                  Known<Vec<HoursOfSession>> = Term::other("The day in hours, from the first set-up on"),
        day_feed          "day-feed-volume":             Known<Volume>      = Term::number(&VOLUME, "Feed water per day, without flushes", "V_f"),
        carbon_sessions   "carbon-whole-sessions":       Known<f64>         = Term::number(&NUMBER, "Carbon change at the latest, after whole sessions", "n_c").whole(),
        carbon_days       "carbon-days":                 Known<Time>        = Term::number(&TIME, "Carbon change at the latest, after days", "t_carbon").units("d", "d"),
        bought            "bought-volume":               Known<Volume>      = Term::number(&VOLUME, "Feed water per session, without flushes", "V_f"),
        cost              "session-cost":                Known<f64>         = Term::number(&NUMBER, "Cost of the water per session, in the currency of the price", "C"),
        months            "months":                      Known<Vec<MonthFlow>>     = Term::other("By month"),
    }
}
