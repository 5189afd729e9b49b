//! Litres and sessions until the first carbon is spent, as a range, for free chlorine and for chloramine separately.
//!
//! Rests on the cartridge's own label, scaled to this water by mass of chlorine (upper bound) and to the dialysis limit by
//! first-order contact; for granular carbon on capacities of which measurements differ tenfold. Neither is a promise:
//! beds are spent by organics, fouling and channels too, and no number here is ever judged as met.

use super::kinetics::{Conditions, Species, outlets};
use super::rating::{Label, RatedFor};
use super::{CarbonKind, TEST_BEFORE_EVERY_SESSION};
use crate::engine::quantity::{
    Chlorine, Density, Flow, Length, Ph, Ratio, Temperature, Time, Velocity, Volume,
    kilograms_per_cubic_metre,
    kinds::{CHLORINE, FLOW, NUMBER, RATIO, TIME, VOLUME},
    milligrams_per_litre, percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Known, Missing, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::{carbon, chlorine, place, report, tap};
use crate::{output_row, sheet, step};

/// What a forecast of carbon cannot show.
pub static CARBON_LIFE: Criterion = Criterion {
    id: "carbon-life",
    sentence: "Total chlorine after the carbon below 0.1 mg/L for so many sessions, by a forecast alone",
    stage: Stage::Carbon,
    side: Side::AtLeast,
    forecast: true,
    source: &source::TAC_117_32,
    levers: &["bed-volume", "second-bed-volume"],
    cases: &[],
};

/// What a forecast of carbon defers to.
pub static CARBON_TEST_DECIDES: Caution = Caution {
    id: "carbon-test-decides",
    text: "This is a forecast, and the test decides: total chlorine after the first carbon before every session, and every four hours of running. A reading of 0.1 mg/L or more stops the session, however few litres the carbon has seen.",
};

static LIFE_ENDS_OTHERWISE: Caution = Caution {
    id: "carbon-ends-otherwise",
    text: "Carbon is spent by organic matter, dirt, growth and channels as well as by chlorine, and a change of the utility's disinfectant or dose changes all of this overnight. Replace it by its own instructions at the latest.",
};

output_row! {
    /// The two forms of chlorine, each for itself.
    Life {
        species       "species":          Species         = Term::other("Form of chlorine"),
        inlet         "inlet":            Known<Chlorine> = Term::number(&CHLORINE, "Before the carbon", "C_0"),
        least_litres  "least-litres":     Known<Volume>   = Term::number(&VOLUME, "Least water through the first carbon", "V_min"),
        most_litres   "most-litres":      Known<Volume>   = Term::number(&VOLUME, "Most water through the first carbon", "V_max"),
        least         "least-sessions":   Known<f64>      = Term::number(&NUMBER, "Least sessions", "n_min"),
        most          "most-sessions":    Known<f64>      = Term::number(&NUMBER, "Most sessions", "n_max"),
        first_worst   "outlet-first-worst": Known<Chlorine> = Term::number(&CHLORINE, "After the first carbon, slow carbon", "C_1"),
        first_best    "outlet-first-best":  Known<Chlorine> = Term::number(&CHLORINE, "After the first carbon, fast carbon", "C_1"),
        all_worst     "outlet-all-worst":   Known<Chlorine> = Term::number(&CHLORINE, "After all carbon, slow carbon", "C_2"),
        all_best      "outlet-all-best":    Known<Chlorine> = Term::number(&CHLORINE, "After all carbon, fast carbon", "C_2"),
    }
}

sheet! {
    /// How many litres and sessions the first carbon may last, as a range with its assumptions, and what is left of the chlorine behind it. A test decides, never this.
    CarbonLife, "carbon-life", "Life of the carbon", Stage::Carbon,
    sources: &[&source::NSF_42, &source::FAIREY_2007, &source::EN_12915_1, &source::SNOEYINK_1981, &source::CHLORAMINE_CAPACITY_1983, &source::ISO_23500_3, &source::COMMON_PRACTICE],
    cautions: &[&CARBON_TEST_DECIDES, &LIFE_ENDS_OTHERWISE],
    criteria: &[&CARBON_LIFE],
    inputs: {
        kind        "carbon-kind":            Known<CarbonKind>   = place::CARBON_KIND,
        bed         "bed-volume":             Known<Volume>       = carbon::BED_VOLUME,
        second      "second-bed-volume":      Option<Volume>      = carbon::SECOND_BED_VOLUME,
        flow        "flow":                   Flow                = carbon::HIGHEST_FLOW,
        running     "session-running-time":   Known<Time>         = carbon::SESSION_RUNNING_TIME,
        total       "total-chlorine":         Chlorine            = chlorine::TOTAL_CHLORINE,
        free        "free-chlorine":          Option<Chlorine>    = chlorine::FREE_CHLORINE,
        highest     "highest-total-chlorine": Option<Chlorine>    = place::HIGHEST_TOTAL_CHLORINE.assumed("the reading at the tap"),
        rated_for   "rated-disinfectant":     Known<RatedFor>     = carbon::RATED_DISINFECTANT,
        rated       "rated-volume":           Known<Volume>       = carbon::RATED_VOLUME,
        rated_flow  "rated-flow":             Known<Flow>         = carbon::RATED_FLOW,
        rated_in    "rated-inlet":            Known<Chlorine>     = carbon::RATED_INLET,
        rated_out   "rated-outlet":           Known<Chlorine>     = carbon::RATED_OUTLET,
        density     "carbon-density":         Option<Density>     = carbon::CARBON_DENSITY,
        capacity    "carbon-capacity":        Option<Ratio>       = carbon::CARBON_CAPACITY,
        temperature "tap-temperature":        Option<Temperature> = tap::TAP_TEMPERATURE.assumed("20 °C, that of the published tests"),
        acidity     "feed-ph":                Known<Ph>           = report::FEED_PH,
        half_length "half-length":            Known<Length>       = carbon::HALF_LENGTH,
        velocity    "half-length-velocity":   Known<Velocity>     = carbon::HALF_LENGTH_VELOCITY,
    }
    outputs Outputs: {
        session    "session-litres":        Known<Volume> = Term::number(&VOLUME, "Water through the carbon in a session", "V_s"),
        litres     "litres-at-most":        Known<Volume> = Term::number(&VOLUME, "Water until the first carbon is spent, at most", "V_max"),
        sessions   "sessions-at-most":      Known<f64>    = Term::number(&NUMBER, "Sessions until the first carbon is spent, at most", "n_max"),
        first_flow "flow-for-limit":        Known<Flow>   = Term::number(&FLOW, "Highest flow at which one such carbon can reach 0.1 mg/L, by its label", "Q_max"),
        both_flow  "flow-for-limit-series": Known<Flow>   = Term::number(&FLOW, "The same for both in series, by contact alone", "Q_both"),
        in_first   "contact-time":          Known<Time>   = Term::number(&TIME, "Contact time in the first vessel", "t_1"),
        total_time "total-contact-time":    Known<Time>   = Term::number(&TIME, "Contact time in all carbon", "t"),
        fast_form  "hypochlorous-share":    Known<Ratio>  = Term::number(&RATIO, "Share of the free chlorine in its fast form (HOCl)", "f_HOCl"),
        lives      "lives":                 Vec<Life>     = Term::other("Free chlorine and chloramine"),
    }
}

/// What the dialysis limit asks; the limit itself is already action.
pub(super) const LIMIT: Chlorine = milligrams_per_litre(0.1);

impl Evaluate for CarbonLife {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &CarbonLife { flow, second, .. } = self;
        let label = self.label()?;
        let session = self.running.and_then(|running| {
            w.bind("running", "t_s", running);
            step!(w, session "V_s" = flow * running);
            (session.si() > 0.0).then_some(session).ok_or(Missing::none_exists("the RO does not run at all"))
        });
        let in_first = self.bed.map(|bed| {
            step!(w, in_first "t_1" = bed / flow);
            in_first
        });
        let total_time = self.bed.map(|bed| {
            let second = second.unwrap_or(Volume::of(0.0));
            w.bind("second", "V_2", second);
            step!(w, total_time "t" = (bed + second) / flow);
            total_time
        });
        let conditions = Conditions {
            temperature: self.temperature,
            acidity: self.acidity,
            half_length: self.half_length,
            velocity: self.velocity,
        };
        let fast_form = conditions.fast_form(w);
        let lives: Vec<Life> = [Species::FreeChlorine, Species::Chloramine]
            .into_iter()
            .map(|species| {
                w.in_case(species.id(), |w| {
                    self.life(species, label, session, (in_first, total_time), &conditions, w)
                })
            })
            .collect();
        let (first_flow, both_flow) = self.flows(label, &lives, w);
        w.does_not_apply(&CARBON_LIFE, &TEST_BEFORE_EVERY_SESSION, None::<(f64, f64)>);
        let litres = least_of(&lives, |life| life.most_litres.map(Volume::si)).map(Volume::of);
        let sessions = least_of(&lives, |life| life.most);
        Ok(Outputs {
            session,
            litres,
            sessions,
            first_flow,
            both_flow,
            in_first,
            total_time,
            fast_form,
            lives,
        })
    }
}

/// The least upper bound among the forms that are in the water: one that is not known could only lower it.
fn least_of(lives: &[Life], of: impl Fn(&Life) -> Known<f64>) -> Known<f64> {
    const NOTHING: Missing =
        Missing::none_exists("neither form is in the water above 0.1 mg/L: nothing uses the carbon up");
    let all = || lives.iter().map(&of);
    match all().flatten().reduce(f64::min) {
        Some(least) => Ok(least),
        None => Err(all().filter_map(Result::err).find(|missing| !missing.is_none()).unwrap_or(NOTHING)),
    }
}

impl CarbonLife {
    /// What the label says, checked against itself.
    fn label(&self) -> Result<Known<Label>, Stop> {
        let label = Label::read(self.rated_for, self.rated, self.rated_flow, self.rated_in, self.rated_out)?;
        Ok(label)
    }

    /// What of this form is before the carbon in the worst week. Where both tests are known, what the total may rise
    /// by is counted with either.
    fn inlet(&self, species: Species, w: &mut Working) -> Known<Chlorine> {
        let total = self.total;
        let worst = self.highest.unwrap_or(total).max(total);
        let free = self.free.unwrap_or(Chlorine::of(0.0)).min(total);
        let is_there = match species {
            Species::Chloramine => self.free.is_none_or(|free| free < total) && worst.si() > 0.0,
            Species::FreeChlorine => free.si() > 0.0,
        };
        if !is_there {
            return Err(Missing::none_exists("this form was not found at the tap"));
        }
        w.bind("worst", "TC_max", worst);
        w.bind("free", "FC", free);
        match species {
            Species::Chloramine => Ok(worst),
            Species::FreeChlorine => {
                step!(w, inlet "C_0" = worst - (total - free));
                Ok(inlet)
            }
        }
    }

    fn life(
        &self,
        species: Species,
        label: Known<Label>,
        session: Known<Volume>,
        (in_first, in_all): (Known<Time>, Known<Time>),
        conditions: &Conditions,
        w: &mut Working,
    ) -> Life {
        let inlet = self.inlet(species, w);
        let (least_litres, most_litres) = match inlet {
            Err(missing) => (Err(missing), Err(missing)),
            Ok(inlet) if inlet <= LIMIT => {
                let none = Missing::none_exists("no more than 0.1 mg/L of this form reaches the carbon");
                (Err(none), Err(none))
            }
            Ok(inlet) => self.litres(species, inlet, label, w),
        };
        let sessions = |litres: Known<Volume>| litres.and_then(|litres| Ok(litres / session?));
        let after = |time: Known<Time>, w: &mut Working| match (self.kind, inlet) {
            (_, Err(missing)) | (Err(missing), _) => (Err(missing), Err(missing)),
            (Ok(CarbonKind::Granular), Ok(inlet)) => outlets(species, inlet, time, conditions, w),
            (Ok(CarbonKind::Block), Ok(inlet)) => {
                let carbon = time.and_then(|time| Ok((time, in_first?)));
                let worst = carbon
                    .and_then(|(time, first)| label?.outlet(species, inlet, self.flow, time / first, w));
                (
                    worst,
                    Err(Missing::not_known(
                        "rated-outlet",
                        "a label gives the worst that it allows, not what a new block leaves",
                    )),
                )
            }
        };
        let (first_worst, first_best) = after(in_first, w);
        let (all_worst, all_best) = match self.second {
            Some(_) => after(in_all, w),
            None => (first_worst, first_best),
        };
        Life {
            species,
            inlet,
            least_litres,
            most_litres,
            least: sessions(least_litres),
            most: sessions(most_litres),
            first_worst,
            first_best,
            all_worst,
            all_best,
        }
    }

    /// Least and most water until the first carbon is spent.
    fn litres(
        &self,
        species: Species,
        inlet: Chlorine,
        label: Known<Label>,
        w: &mut Working,
    ) -> (Known<Volume>, Known<Volume>) {
        match self.kind {
            Err(missing) => (Err(missing), Err(missing)),
            Ok(CarbonKind::Block) => match label {
                Err(missing) => (Err(missing), Err(missing)),
                Ok(label) => label.litres(species, inlet, self.flow, w),
            },
            // a vessel that has a label is taken by it, where it speaks of this form
            Ok(CarbonKind::Granular) => match label {
                Ok(label) if label.is_for(species) => label.litres(species, inlet, self.flow, w),
                _ => match self.bed {
                    Err(missing) => (Err(missing), Err(missing)),
                    Ok(bed) => {
                        let (least, most) = species.capacities();
                        let (light, heavy) =
                            (kilograms_per_cubic_metre(400.0), kilograms_per_cubic_metre(520.0));
                        let low = self.adsorbed(
                            inlet,
                            bed,
                            self.capacity.unwrap_or(percent(least)),
                            self.density.unwrap_or(light),
                            w,
                        );
                        let high = self.adsorbed(
                            inlet,
                            bed,
                            self.capacity.unwrap_or(percent(most)),
                            self.density.unwrap_or(heavy),
                            w,
                        );
                        (Ok(low), Ok(high))
                    }
                },
            },
        }
    }

    /// Mass that the carbon takes up over what each litre leaves in it.
    fn adsorbed(
        &self,
        inlet: Chlorine,
        bed: Volume,
        capacity: Ratio,
        density: Density,
        w: &mut Working,
    ) -> Volume {
        w.bind("inlet", "C_0", inlet);
        w.bind("bed", "V_1", bed);
        w.bind("capacity", "q", capacity);
        w.bind("density", "ρ", density);
        let taken = inlet - LIMIT;
        w.bind("taken", "ΔC", taken);
        step!(w, litres "V": Volume = capacity.si() * density.si() * bed.si() / taken.si());
        litres
    }

    /// Flows at which the label's contact would reach the limit, the worst of the forms that it speaks of.
    fn flows(&self, label: Known<Label>, lives: &[Life], w: &mut Working) -> (Known<Flow>, Known<Flow>) {
        let of_label = label.and_then(|label| {
            let life = lives.iter().find(|life| label.is_for(life.species));
            let inlet = life
                .map_or(Err(Missing::none_exists("this form was not found at the tap")), |life| life.inlet)?;
            Ok(label.flow_for_limit(inlet, w))
        });
        let both = of_label.and_then(|first_flow| {
            let (bed, second) =
                (self.bed?, self.second.ok_or(Missing::none_exists("there is no second carbon"))?);
            w.bind("first_flow", "Q_max", first_flow);
            step!(w, both_flow "Q_both" = first_flow * ((bed + second) / bed));
            Ok(both_flow)
        });
        (of_label, both)
    }
}
