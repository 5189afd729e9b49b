//! The stages of the plan: each hands the place's and the RO's values to its sheet.

use super::Plan;
use crate::engine::quantity::{
    Chlorine, Flow, Pressure, PressureDifference, Ratio, Temperature, Time, kinds,
};
use crate::engine::sheet::{Known, Missing, Named, Sheet, Term, Working, part};
use crate::output_row;
use crate::trade::carbon::CarbonKind;
use crate::trade::carbon::{ContactTime, FIVE_IN_FINAL, Rule, TEN_MINUTES, TWO_CARBONS, judge_carbons};
use crate::trade::cases;
use crate::trade::machine::{Demands, MARGIN, MachineDemand};
use crate::trade::membrane::{
    Allowance, CAPACITY, Control, ProductFlowYear, RECOVERY_BOUND, Season, SeasonFlow, YearOfFlows,
};
use crate::trade::sediment::{CARTRIDGE_FLOW, SedimentFilter};
use crate::trade::tap::{ChlorineSpecies, Filling, HOSE_RATED, INLET_PRESSURE, InletPressure, TimedJug};
use crate::trade::terms::{machine::SESSIONS, membrane::ANCHOR_TEMPERATURE, tap::OPEN_FLOW};

output_row! {
    /// What is left at the RO's inlet at one time of the year.
    InletAt {
        season         "season":         Season                    = Term::other("When"),
        running        "running":        Known<Pressure>           = Term::number(&kinds::PRESSURE, "Running", "p_RO"),
        flush          "flush":          Known<Pressure>           = Term::number(&kinds::PRESSURE, "In flush", "p_RO"),
        running_loaded "running-loaded": Known<Pressure>           = Term::number(&kinds::PRESSURE, "Running, filter loaded", "p_RO"),
        flush_loaded   "flush-loaded":   Known<Pressure>           = Term::number(&kinds::PRESSURE, "In flush, filter loaded", "p_RO"),
        tap_running    "tap-running":    Known<Pressure>           = Term::number(&kinds::PRESSURE, "At the tap, running", "p_tap"),
        tap_flush      "tap-flush":      Known<Pressure>           = Term::number(&kinds::PRESSURE, "At the tap, in flush", "p_tap"),
        line_running   "filter-running": Known<Pressure>           = Term::number(&kinds::PRESSURE, "Before the filter, running", "p_1"),
        line_flush     "filter-flush":   Known<Pressure>           = Term::number(&kinds::PRESSURE, "Before the filter, in flush", "p_1"),
        to_spare       "to-spare":       Known<PressureDifference> = Term::number(&kinds::PRESSURE_DIFFERENCE, "Left for filter and rest of the line", "Δp_spare"),
    }
}

output_row! {
    /// EBCT at one time of the year.
    CarbonTimes {
        season         "season":         Season      = Term::other("When"),
        running_first  "running-first":  Known<Time> = Term::number(&kinds::TIME, "First carbon, running", "t_1"),
        running_total  "running-total":  Known<Time> = Term::number(&kinds::TIME, "All carbon, running", "t"),
        flush_first    "flush-first":    Known<Time> = Term::number(&kinds::TIME, "First carbon, in flush", "t_1"),
        flush_total    "flush-total":    Known<Time> = Term::number(&kinds::TIME, "All carbon, in flush", "t"),
    }
}

/// There is a row for every time of the year, so nobody reads this.
pub const NO_SEASON: Missing = Missing::not_known("", "this time of the year was not computed");

impl Plan {
    /// Combined chlorine, shown at the tap.
    pub(super) fn chlorine(&self, w: &mut Working) -> Known<Chlorine> {
        w.stage(&[], |w| {
            Ok(ChlorineSpecies { total: self.total_chlorine?, free: self.free_chlorine? }.run(w)?.combined)
        })
    }

    /// What the machines draw.
    pub(super) fn machines(&self, w: &mut Working) -> Known<Demands> {
        w.stage(&[], |w| {
            let sheet = MachineDemand {
                machines: self.machines?,
                dialysate: self.dialysate?,
                peak: self.peak,
                rinses: self.rinses?,
                margin: self.margin?,
                time: self.session_time,
                share: None,
                extra: None,
                sessions: self
                    .sessions
                    .and_then(|sessions| sessions.ok_or(Missing::empty("sessions", SESSIONS.name))),
            };
            sheet.run(w)
        })
    }

    /// Everything that is held back on purpose, on the flows and in the demand.
    pub(super) fn allowances(&self, year: &Known<YearOfFlows>, demands: &Known<Demands>) -> Vec<Allowance> {
        let on_flows = match year {
            Ok(year) => year.allowances.clone(),
            Err(missing) => Allowance::unknown(*missing),
        };
        let margin = self.margin.map(|margin| margin.unwrap_or(MARGIN));
        let raised = part(demands, |demands| demands.raised);
        Allowance::with_demand(on_flows, margin, raised)
    }

    /// Product, feed and recovery through the year.
    pub(super) fn membrane(&self, demand: Known<Flow>, w: &mut Working) -> Known<YearOfFlows> {
        w.stage(&[&CAPACITY], |w| {
            let sheet = ProductFlowYear {
                product: self.product?,
                reject: self.reject,
                flush_reject: self.flush_reject,
                label: self.label?,
                tap: self.temperature?,
                anchor: self.flows_read_at()?,
                coldest: self.coldest?,
                warmest: self.warmest?,
                tempered: self.tempered_to()?,
                months: self.months.clone()?,
                control: self.control?,
                forms: self.forms?,
                fouling: self.fouling?,
                pump: self.pump,
                limit: self.limit,
                demand,
            };
            sheet.run(w)
        })
    }

    /// In which water product and reject were read. They belong to the RO and move with it: another tap's water says
    /// nothing of the reading. Without a measured flow there is none, and the label's stands for 25 °C.
    pub(super) fn flows_read_at(&self) -> Known<Option<Temperature>> {
        match (self.product?, self.anchor?) {
            (Some(_), None) => Err(Missing::empty("anchor-temperature", ANCHOR_TEMPERATURE.name)),
            (_, read_at) => Ok(read_at),
        }
    }

    /// The flows at each time of the year; where the membrane's sheet stopped, why. Today, where its temperature is
    /// not known, is left to the two ends, between which it lies.
    pub(super) fn seasons(&self, year: &Known<YearOfFlows>) -> Vec<SeasonFlow> {
        match year {
            Ok(year) => year
                .seasons
                .iter()
                .filter(|at| at.season != Season::Today || at.temperature.is_ok())
                .cloned()
                .collect(),
            Err(missing) => [Season::Today, Season::Coldest, Season::Warmest]
                .map(|season| SeasonFlow {
                    season,
                    temperature: Err(*missing),
                    product: Err(*missing),
                    feed: Err(*missing),
                    flush: Err(*missing),
                    recovery: Err(*missing),
                })
                .into(),
        }
    }

    /// Pressure left at the RO's inlet, each judgement at its worst time of the year.
    pub(super) fn inlet(&self, seasons: &[SeasonFlow], w: &mut Working) -> Vec<InletAt> {
        let open_flow = self.open_flow(w);
        w.worst_season(|w| {
            seasons
                .iter()
                .map(|season| w.in_season(season.season.when(), |w| self.inlet_at(season, open_flow, w)))
                .collect()
        })
    }

    /// The flow of the open tap: as entered, else from jug and watch.
    fn open_flow(&self, w: &mut Working) -> Known<Flow> {
        if let Some(open_flow) = self.open_flow? {
            return Ok(open_flow);
        }
        let (Ok(volume), Ok(time)) = (self.jug_volume, self.jug_time) else {
            return Err(Missing::empty("open-flow", OPEN_FLOW.name));
        };
        w.stage(&[], |w| Ok(TimedJug { volume, runs: vec![Filling { time }] }.run(w)?.flow))
    }

    fn inlet_at(&self, at: &SeasonFlow, open_flow: Known<Flow>, w: &mut Working) -> InletAt {
        let inlet = w.stage(&[&INLET_PRESSURE, &HOSE_RATED], |w| {
            let sheet = InletPressure {
                shut: self.shut,
                open_flow,
                open_pressure: self.open_pressure,
                lowest: self.lowest_shut?,
                highest: self.highest_shut,
                rating: self.hose_rating,
                running: at.feed,
                flush: at.flush,
                temperature: at.temperature,
                hoses: self.hoses.clone()?,
                fittings: self.fittings.clone()?,
                rise: self.rise?,
                filter_drop: self.filter_read(self.filter_drop),
                filter_flow: self.filter_flow,
                filter_temperature: self.filter_temperature?,
                change_drop: self.filter_read(self.change_drop),
                line_drop: self.line_drop,
                line_flow: self.line_flow,
                least: self.least_inlet,
            };
            sheet.run(w)
        });
        InletAt {
            season: at.season,
            running: part(&inlet, |inlet| inlet.running),
            flush: part(&inlet, |inlet| inlet.flush),
            running_loaded: part(&inlet, |inlet| inlet.running_loaded),
            flush_loaded: part(&inlet, |inlet| inlet.flush_loaded),
            tap_running: part(&inlet, |inlet| inlet.tap_running),
            tap_flush: part(&inlet, |inlet| inlet.tap_flush),
            line_running: part(&inlet, |inlet| inlet.line_running),
            line_flush: part(&inlet, |inlet| inlet.line_flush),
            to_spare: part(&inlet, |inlet| inlet.to_spare),
        }
    }

    /// The times of the year that can tell the highest flow. Where less is drawn the colder it is, nothing is lost
    /// when the coldest is not known.
    pub(super) fn telling<'a>(
        &self,
        seasons: &'a [SeasonFlow],
    ) -> impl Iterator<Item = &'a SeasonFlow> + use<'a> {
        let most_when_warm = Control::draws_most_when_warm(self.control.ok().flatten());
        seasons
            .iter()
            .filter(move |at| !(most_when_warm && at.season == Season::Coldest && at.temperature.is_err()))
    }

    /// Sediment cartridges for the highest flow; those of the guideline.
    pub(super) fn sediment(&self, seasons: &[SeasonFlow], w: &mut Working) -> Known<f64> {
        let flows = self
            .telling(seasons)
            .flat_map(|at| [(at, cases::RUNNING, at.feed), (at, cases::FLUSH, at.flush)]);
        let ever = flows.filter(|(_, _, flow)| !flow.is_err_and(|missing| missing.is_none()));
        // every one is judged before the first that is missing is told
        let needed: Vec<Known<f64>> = w.worst_season(|w| {
            ever.map(|(at, case, flow)| {
                w.in_season(at.season.when(), |w| w.in_case(case, |w| self.sediment_at(at, flow, w)))
            })
            .collect()
        });
        needed.into_iter().try_fold(0.0, |most: f64, needed| Ok(most.max(needed?)))
    }

    fn sediment_at(&self, at: &SeasonFlow, flow: Known<Flow>, w: &mut Working) -> Known<f64> {
        let none = || Missing::not_known("clean-drop", "");
        let filter = w.stage(&[&CARTRIDGE_FLOW], |w| {
            let sheet = SedimentFilter {
                flow: flow?,
                cartridges: self.cartridges?,
                length: self.cartridge_length?,
                guideline: self.guideline,
                temperature: at.temperature,
                drop: Err(none()),
                drop_flow: Err(none()),
                drop_temperature: None,
                drop_length: None,
            };
            sheet.run(w)
        });
        filter.and_then(|filter| filter.needed)
    }

    /// Contact time, running and in flush, each at its worst time of the year.
    pub(super) fn carbon(&self, seasons: &[SeasonFlow], w: &mut Working) -> Vec<CarbonTimes> {
        let rule = self.rule.and_then(|rule| {
            let of_kind = self.carbon_kind?.map(|kind| match kind {
                CarbonKind::Block => Rule::Test,
                CarbonKind::Granular => Rule::Time,
            });
            Ok(rule.or(of_kind))
        });
        if self.rule == Ok(None) && self.carbon_kind == Ok(Some(CarbonKind::Block)) {
            w.assume("rule", "a carbon block never reaches an EBCT of 10 min: this place is taken to rely on a total chlorine test before every session");
        }
        w.worst_season(|w| {
            // no flow is needed to count the carbons
            w.stage(&[&TWO_CARBONS], |w| {
                self.bed?;
                judge_carbons(self.second_bed?, rule?, w);
                Ok(())
            })
            .ok();
            self.telling(seasons)
                .map(|at| {
                    w.in_season(at.season.when(), |w| {
                        let (running_first, running_total) = self.carbon_at(cases::RUNNING, at.feed, rule, w);
                        let (flush_first, flush_total) = self.carbon_at(cases::FLUSH, at.flush, rule, w);
                        CarbonTimes {
                            season: at.season,
                            running_first,
                            running_total,
                            flush_first,
                            flush_total,
                        }
                    })
                })
                .collect()
        })
    }

    fn carbon_at(
        &self,
        case: Named,
        flow: Known<Flow>,
        rule: Known<Option<Rule>>,
        w: &mut Working,
    ) -> (Known<Time>, Known<Time>) {
        if let Err(missing) = flow
            && missing.is_none()
        {
            return (Err(missing), Err(missing));
        }
        let times = w.in_case(case, |w| {
            w.stage(&[&TEN_MINUTES, &FIVE_IN_FINAL], |w| {
                ContactTime { first: self.bed?, second: self.second_bed?, flow: flow?, rule: rule? }.run(w)
            })
        });
        (part(&times, |times| Ok(times.in_first)), part(&times, |times| Ok(times.total)))
    }

    /// Recovery against the bound of the RO's instructions, where they set one.
    pub(super) fn bound_recovery(&self, recovery: Known<Ratio>, w: &mut Working) {
        if let Some(highest) = self.highest_recovery.transpose() {
            w.in_season(Season::Warmest.when(), |w| w.judge_known(&RECOVERY_BOUND, recovery, highest));
        }
    }
}
