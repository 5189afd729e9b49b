//! How many sessions the first carbon lasts: the least that anything promises, and an upper bound, for free chlorine and for
//! chloramine separately.
//!
//! Rests on the cartridge's own label, scaled to this water by mass of chlorine (upper bound) and to the dialysis limit by
//! first-order contact; for granular carbon on capacities of which measurements differ tenfold. Neither is a promise:
//! beds are spent by organics, fouling and channels too, and no number here is ever judged as met.

use super::contact_time::TIME_IN_CARBON;
use super::kinetics::{Conditions, Species, outlets};
use super::rating::{Label, RatedFor};
use super::{CarbonKind, TEST_BEFORE_EVERY_SESSION};
use crate::engine::quantity::{
    Chlorine, Density, Flow, Length, Mass, Ph, Ratio, Temperature, Time, Velocity, Volume,
    kilograms_per_cubic_metre,
    kinds::{CHLORINE, FLOW, MASS, NUMBER, RATIO, VOLUME},
    milligrams_per_litre, percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Sentence, Side, Slot, Stage, Stop, Term, Working,
    source,
};
use crate::trade::terms::{carbon, chlorine, place, report, tap};
use crate::{output_row, sheet, step};

/// What a forecast of carbon cannot show: it has no limit, so that no number answers it.
pub static CARBON_LIFE: Criterion = Criterion {
    id: "carbon-life",
    sentence: "Carbon life in sessions, by an estimate alone",
    stage: Stage::Carbon,
    side: Side::Answered,
    forecast: true,
    source: &source::TAC_117_32,
    levers: &["bed-volume", "second-bed-volume"],
    cases: &[],
    judges: Judges::NoOutput,
};

/// What a forecast of carbon defers to.
pub static CARBON_TEST_DECIDES: Caution = Caution {
    id: "carbon-test-decides",
    text: "This is an estimate. The test decides: total chlorine after the first carbon before every session, and every four hours of running. A reading of 0.1 mg/L or more is a stop, however little water the carbon has treated.",
};

static LIFE_ENDS_OTHERWISE: Caution = Caution {
    id: "carbon-ends-otherwise",
    text: "Organic matter, dirt, growth and channels use up carbon as well as chlorine does, and a change of the utility's disinfectant or dose changes everything overnight. Replace the carbon no later than its own instructions say.",
};

output_row! {
    /// The two forms of chlorine, each for itself.
    Life {
        species       "species":          Species         = Term::other("Form of chlorine"),
        inlet         "inlet":            Known<Chlorine> = Term::number(&CHLORINE, "Before the carbon, worst of the year", "C_0"),
        least_litres  "least-litres":     Known<Volume>   = Term::number(&VOLUME, "Water through the first carbon, at least", "V_min"),
        most_litres   "most-litres":      Known<Volume>   = Term::number(&VOLUME, "Water through the first carbon, at most", "V_max"),
        least         "least-sessions":   Known<f64>      = Term::number(&NUMBER, "Sessions, at least", "n_min"),
        most          "most-sessions":    Known<f64>      = Term::number(&NUMBER, "Sessions, at most", "n_max"),
        first_worst   "outlet-first-worst": Known<Chlorine> = Term::number(&CHLORINE, "After the first carbon, slow carbon", "C_1"),
        first_best    "outlet-first-best":  Known<Chlorine> = Term::number(&CHLORINE, "After the first carbon, fast carbon", "C_1"),
        all_worst     "outlet-all-worst":   Known<Chlorine> = Term::number(&CHLORINE, "After all carbon, slow carbon", "C_2"),
        all_best      "outlet-all-best":    Known<Chlorine> = Term::number(&CHLORINE, "After all carbon, fast carbon", "C_2"),
    }
}

sheet! {
    /// How many sessions the first carbon lasts, at least and at most, and how much chlorine is left after it. This is an estimate. A test decides.
    CarbonLife, "carbon-life", "Carbon life", Stage::Carbon,
    also: &["GAC", "chloramine", "exhaustion", "change the carbon"],
    sources: &[&source::NSF_42, &source::FAIREY_2007, &source::EN_12915_1, &source::SNOEYINK_1981, &source::CHLORAMINE_CAPACITY_1983, &source::ISO_23500_3, &source::COMMON_PRACTICE],
    cautions: &[&CARBON_TEST_DECIDES, &LIFE_ENDS_OTHERWISE],
    criteria: &[&CARBON_LIFE],
    inputs: {
        kind        "carbon-kind":            Known<CarbonKind>   = place::CARBON_KIND,
        bed         "bed-volume":             Known<Volume>       = carbon::BED_VOLUME,
        second      "second-bed-volume":      Option<Volume>      = carbon::SECOND_BED_VOLUME,
        flow        "flow":                   Known<Flow>         = carbon::HIGHEST_FLOW,
        running     "session-running-time":   Known<Time>         = carbon::SESSION_RUNNING_TIME,
        total       "total-chlorine":         Known<Chlorine>     = chlorine::TOTAL_CHLORINE,
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
        least      "sessions-at-least":     Known<f64>    = Term::number(&NUMBER, "Carbon life in sessions, at least", "n_min"),
        session    "session-litres":        Known<Volume> = Term::number(&VOLUME, "Water through the carbon per session", "V_s"),
        litres     "litres-at-most":        Known<Volume> = Term::number(&VOLUME, "Water until the first carbon is used up, at most", "V_max"),
        sessions   "sessions-at-most":      Known<f64>    = Term::number(&NUMBER, "Carbon life in sessions, at most", "n_max"),
        load       "chlorine-load":         Known<Mass>   = Term::number(&MASS, "Chlorine load per session, as Cl2", "m_Cl").units("g", "g"),
        first_flow "flow-for-limit":        Known<Flow>   = Term::number(&FLOW, "Highest flow at which one carbon reaches 0.1 mg/L, by its label", "Q_max"),
        both_flow  "flow-for-limit-series": Known<Flow>   = Term::number(&FLOW, "Highest flow at which both in series reach it, by contact alone", "Q_both"),
        in_first   "contact-time":          Known<Time>   = TIME_IN_CARBON,
        total_time "total-contact-time":    Known<Time>   = TIME_IN_CARBON.named("EBCT of all carbon together").symbol("t"),
        fast_form  "hypochlorous-share":    Known<Ratio>  = Term::number(&RATIO, "Share of free chlorine as HOCl (the fast form)", "f_HOCl"),
        lives      "lives":                 Vec<Life>     = Term::other("Free chlorine and chloramine"),
    }
}

/// What the dialysis limit asks; the limit itself is already action.
pub(super) const LIMIT: Chlorine = milligrams_per_litre(0.1);

/// Bed volumes up to which a life is told: about a year of ten hours a day at an EBCT of ten minutes (21,900). By then
/// granular carbon is replaced, since organic matter and growth have ended it (common practice, no source).
const LONGEST: f64 = 20_000.0;

const NOT_BY_CHLORINE: Missing = Missing::none_exists(
    "this little chlorine would take more than a year to use the carbon up; organic matter, growth and channels end it sooner: replace it when its own instructions say",
);

impl Evaluate for CarbonLife {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let label = self.label()?;
        self.name_all_missing(w);
        let session = self.session(w);
        let load = session.and_then(|session| {
            let worst = self.worst()?;
            w.bind("worst", "TC_max", worst);
            step!(w, load "m_Cl": Mass = worst.si() * session.si());
            Ok(load)
        });
        let (in_first, total_time) = self.times(w);
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
                w.in_case(species.named(), |w| {
                    self.life(species, label, session, (in_first, total_time), &conditions, w)
                })
            })
            .collect();
        let (first_flow, both_flow) = self.flows(label, &lives, w);
        match self.flow.and(self.total.map(|_| ())) {
            Ok(()) => w.does_not_apply(&CARBON_LIFE, &TEST_BEFORE_EVERY_SESSION, None::<(f64, f64)>),
            Err(missing) => w.judge_known(&CARBON_LIFE, Err::<f64, _>(missing), Err(missing)),
        }
        Ok(Outputs {
            least: promised(&lives),
            session,
            litres: bound(&lives, |life| life.most_litres.map(Volume::si)).map(Volume::of),
            sessions: bound(&lives, |life| life.most),
            load,
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
fn bound(lives: &[Life], of: impl Fn(&Life) -> Known<f64>) -> Known<f64> {
    let all = || lives.iter().map(&of);
    all().flatten().reduce(f64::min).ok_or_else(|| first_missing(all()))
}

/// The least number of sessions of all forms. One that is not known could lower it, unless it is nothing already.
fn promised(lives: &[Life]) -> Known<f64> {
    let all = || lives.iter().map(|life| life.least);
    let least = all().flatten().reduce(f64::min);
    let is_open = all().any(|least| least.is_err_and(|missing| !missing.is_none()));
    match least {
        Some(least) if least == 0.0 || !is_open => Ok(least),
        _ => Err(first_missing(all())),
    }
}

/// Why there is no number: what is not known before what does not exist.
fn first_missing(all: impl Iterator<Item = Known<f64>> + Clone) -> Missing {
    const NOTHING: Missing = Missing::none_exists("no chlorine reaches the carbon");
    let mut missing = all.filter_map(Result::err);
    let none = missing.clone().find(|missing| *missing != ABSENT);
    missing.find(|missing| !missing.is_none()).or(none).unwrap_or(NOTHING)
}

/// A form that is not in the water says nothing of the carbon.
const ABSENT: Missing = Missing::none_exists("this form was not found at the tap");

const NEW_BLOCK: Missing = Missing::not_known(
    "rated-outlet",
    "a label gives the highest outlet that it allows, not what a new block leaves",
);

/// Whether it is the limit or more. A sum, a difference or an exponential may miss it by the last bits.
pub(super) fn is_at_limit(value: Chlorine) -> bool {
    value >= LIMIT * (1.0 - 1e-9)
}

/// None, where the carbon at its slowest does not bring the chlorine below the limit even when new.
fn promised_litres(slowest: Known<Chlorine>, least: Known<Volume>) -> Known<Volume> {
    if is_at_limit(slowest?) { Ok(Volume::of(0.0)) } else { least }
}

/// None, where the fastest carbon does not either; where that is not known, the bound still holds.
fn bounded_litres(fastest: Known<Chlorine>, most: Known<Volume>) -> Known<Volume> {
    if fastest.is_ok_and(is_at_limit) { Ok(Volume::of(0.0)) } else { most }
}

impl CarbonLife {
    /// What the label says, checked against itself.
    fn label(&self) -> Result<Known<Label>, Stop> {
        Label::read(self.rated_for, self.rated, self.rated_flow, self.rated_in, self.rated_out)
    }

    /// An answer names one field; here every empty one is named at once, so that nobody is asked five times. What a plan
    /// does not ask names no field.
    fn name_all_missing(&self, w: &mut Working) {
        let is_block = self.kind != Ok(CarbonKind::Granular);
        let has_free = !is_block && self.free.is_some_and(|free| free.si() > 0.0);
        let of_label = [
            self.rated_for.err(),
            self.rated.err(),
            self.rated_flow.err(),
            self.rated_in.err(),
            self.rated_out.err(),
        ];
        let of_kinetics = [self.acidity.err(), self.half_length.err(), self.velocity.err()];
        let always = [self.kind.err(), self.flow.err(), self.running.err(), self.total.err()];
        let empty: Vec<Missing> = always
            .into_iter()
            .chain([self.bed.err()].into_iter().filter(|_| !is_block))
            .chain(of_label.into_iter().filter(|_| is_block))
            .chain(of_kinetics.into_iter().filter(|_| has_free))
            .flatten()
            .filter(|missing| !missing.field.is_empty())
            .collect();
        // a single one is named by the answer itself
        if let [first, _, ..] = empty.as_slice() {
            let names = empty.iter().map(|missing| missing.why).collect();
            let sentence = Sentence::plain("carbon life still needs: {names}");
            w.warn(first.field, "fields-missing", sentence.with("names", Slot::Words(names)));
        }
    }

    fn session(&self, w: &mut Working) -> Known<Volume> {
        let (flow, running) = (self.flow?, self.running?);
        step!(w, session "V_s" = flow * running);
        (session.si() > 0.0).then_some(session).ok_or(Missing::none_exists("the RO does not run at all"))
    }

    /// EBCT of the first and of all carbon.
    fn times(&self, w: &mut Working) -> (Known<Time>, Known<Time>) {
        let (bed, flow) = match (self.bed, self.flow) {
            (Ok(bed), Ok(flow)) => (bed, flow),
            (Err(missing), _) | (_, Err(missing)) => return (Err(missing), Err(missing)),
        };
        step!(w, in_first "t_1" = bed / flow);
        let second = self.second.unwrap_or(Volume::of(0.0));
        w.bind("second", "V_2", second);
        step!(w, total_time "t" = (bed + second) / flow);
        (Ok(in_first), Ok(total_time))
    }

    /// Total chlorine in the worst week.
    fn worst(&self) -> Known<Chlorine> {
        let total = self.total?;
        Ok(self.highest.unwrap_or(total).max(total))
    }

    /// What of this form is before the carbon in the worst week. Where both tests are known, what the total may rise
    /// by is counted with either.
    fn inlet(&self, species: Species, w: &mut Working) -> Known<Chlorine> {
        let (total, worst) = (self.total?, self.worst()?);
        let free = self.free.unwrap_or(Chlorine::of(0.0)).min(total);
        let is_there = match species {
            Species::Chloramine => self.free.is_none_or(|free| free < total) && worst.si() > 0.0,
            Species::FreeChlorine => free.si() > 0.0,
        };
        if !is_there {
            return Err(ABSENT);
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
        let after = |time: Known<Time>, blocks: Known<f64>, w: &mut Working| {
            let known = inlet.and_then(|inlet| Ok((inlet, self.kind?)));
            match known {
                Err(missing) => (Err(missing), Err(missing)),
                Ok((inlet, CarbonKind::Granular)) => outlets(species, inlet, time, conditions, w),
                Ok((inlet, CarbonKind::Block)) => {
                    let outlet = |w| label?.outlet(species, inlet, self.flow?, blocks?, w);
                    (outlet(w), Err(NEW_BLOCK))
                }
            }
        };
        let (first_worst, first_best) = after(in_first, Ok(1.0), w);
        let (all_worst, all_best) = match self.second {
            Some(_) => after(in_all, in_all.and_then(|all| Ok(all / in_first?)), w),
            None => (first_worst, first_best),
        };
        let (least_litres, most_litres) = match inlet {
            Err(missing) => (Err(missing), Err(missing)),
            Ok(inlet) if inlet <= LIMIT => {
                let none = Missing::none_exists("no more than 0.1 mg/L of this form reaches the carbon");
                (Err(none), Err(none))
            }
            Ok(inlet) => {
                let (least, most) = self.litres(species, inlet, label, w);
                (promised_litres(first_worst, least), bounded_litres(first_best, most))
            }
        };
        let sessions = |litres: Known<Volume>| {
            let litres = litres?;
            // no water at all is no session, however long one is
            if litres.si() > 0.0 { Ok(litres / session?) } else { Ok(0.0) }
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
        let by_label = |label: Label, w: &mut Working| match self.flow {
            Err(missing) => (Err(missing), Err(missing)),
            Ok(flow) => label.litres(species, inlet, flow, w),
        };
        match (self.kind, label) {
            (Err(missing), _) | (Ok(CarbonKind::Block), Err(missing)) => (Err(missing), Err(missing)),
            (Ok(CarbonKind::Block), Ok(label)) => by_label(label, w),
            // a vessel that has a label is taken by it, where it speaks of this form
            (Ok(CarbonKind::Granular), Ok(label)) if label.is_for(species) => by_label(label, w),
            (Ok(CarbonKind::Granular), _) => {
                let (least, most) = species.capacities();
                let (light, heavy) = (kilograms_per_cubic_metre(400.0), kilograms_per_cubic_metre(520.0));
                (
                    self.adsorbed(inlet, percent(least), light, w),
                    self.adsorbed(inlet, percent(most), heavy, w),
                )
            }
        }
    }

    /// Mass that the carbon takes up over what each litre leaves in it; capacity and density as entered, else these.
    fn adsorbed(&self, inlet: Chlorine, capacity: Ratio, density: Density, w: &mut Working) -> Known<Volume> {
        let bed = self.bed?;
        let (capacity, density) = (self.capacity.unwrap_or(capacity), self.density.unwrap_or(density));
        w.bind("inlet", "C_0", inlet);
        w.bind("bed", "V_1", bed);
        w.bind("capacity", "q", capacity);
        w.bind("density", "ρ", density);
        let taken = inlet - LIMIT;
        w.bind("taken", "ΔC", taken);
        step!(w, litres "V": Volume = capacity.si() * density.si() * bed.si() / taken.si());
        if litres / bed > LONGEST { Err(NOT_BY_CHLORINE) } else { Ok(litres) }
    }

    /// Flows at which the label's contact would reach the limit, the worst of the forms that it speaks of.
    fn flows(&self, label: Known<Label>, lives: &[Life], w: &mut Working) -> (Known<Flow>, Known<Flow>) {
        let of_label = label.and_then(|label| {
            let life = lives.iter().find(|life| label.is_for(life.species));
            let inlet = life.map_or(Err(ABSENT), |life| life.inlet)?;
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
