//! What a culture or an endotoxin test can show: by medium, temperature and time of incubation, technique, time to the
//! laboratory and sampling port. Too many are too many by any method; only a pass needs the right one.
//!
//! ISO's medium, temperature and time are as A. D. Coulliette and M. J. Arduino quote them; those of RD52, of the European
//! Pharmacopoeia and of the Japanese society, and how a sample is kept, are from memory, to be checked against the texts.

use crate::choice;
use crate::engine::quantity::{Temperature, Time, Volume, celsius, hours, minutes};
use crate::engine::sheet::{Known, Missing};
use crate::trade::limits::{Fluid, LimitSet};
use crate::trade::run::Answered;

choice!(/// What the colonies grew on.
Medium {
    Tsa "tsa" "Tryptic soy agar (TSA, casein soya agar)",
    R2a "r2a" "R2A agar",
    Tgea "tgea" "Tryptone glucose extract agar (TGEA)",
    Other "other-medium" "Another medium",
});

choice!(/// How the sample came onto it.
Technique {
    Spread "spread-plate" "Spread plate",
    Pour "pour-plate" "Pour plate",
    Filter "membrane-filter" "Membrane filtration",
    Loop "calibrated-loop" "Calibrated loop",
});

choice!(/// Where the sample was drawn.
SamplePort {
    MachineInlet "machine-inlet" "Where the product hose enters the dialysis machine",
    RoOutlet "ro-outlet" "RO product port, before the hose",
    FluidPort "fluid-port" "Dialysis fluid port, before the dialyzer",
    Other "other-port" "Another place",
});

/// What a set asks of a culture.
struct Method {
    media: &'static [Medium],
    from: Temperature,
    to: Temperature,
    at_least: Time,
    techniques: &'static [Technique],
    volume: Volume,
}

const ANY_PLATE: &[Technique] = &[Technique::Spread, Technique::Pour, Technique::Filter];

const COOL_AND_LONG: Method = Method {
    media: &[Medium::R2a, Medium::Tgea],
    from: celsius(17.0),
    to: celsius(23.0),
    at_least: hours(168.0),
    techniques: ANY_PLATE,
    volume: Volume::of(0.0),
};
const WARM_AND_SHORT: Method = Method {
    media: &[Medium::Tsa],
    from: celsius(35.0),
    to: celsius(37.0),
    at_least: hours(48.0),
    techniques: &[Technique::Spread, Technique::Filter],
    volume: Volume::of(0.5e-6),
};
const PHARMACOPOEIA: Method = Method {
    media: &[Medium::Tsa],
    from: celsius(30.0),
    to: celsius(35.0),
    at_least: hours(72.0),
    techniques: ANY_PLATE,
    volume: Volume::of(0.0),
};

/// ISO takes tryptic soy agar only where the laboratory has shown that it finds as many, which nothing here tells.
fn method(set: LimitSet) -> &'static Method {
    match set {
        LimitSet::Iso23500 | LimitSet::Iso2024 | LimitSet::Jsdt => &COOL_AND_LONG,
        LimitSet::AamiRd52 => &WARM_AND_SHORT,
        LimitSet::PhEur1167 => &PHARMACOPOEIA,
    }
}

/// How a count came about.
#[derive(Debug, Clone, Copy)]
pub struct Culture {
    /// On what.
    pub medium: Known<Medium>,
    /// How.
    pub technique: Known<Technique>,
    /// How warm.
    pub temperature: Known<Temperature>,
    /// For how long.
    pub time: Known<Time>,
    /// How much of the sample, without what it was diluted with.
    pub tested: Known<Volume>,
}

/// The same temperature written in two units differs in the last bits.
const SAME: f64 = 1e-9;

impl Culture {
    /// Whether a low count shows that a limit of this set is met.
    pub fn shows(&self, set: LimitSet) -> Known<()> {
        let wrong = |field, why| Err(Missing::not_known(field, why));
        let method = method(set);
        let (medium, temperature) = (asked(self.medium)?, asked(self.temperature)?);
        let (time, technique) = (asked(self.time)?, asked(self.technique)?);
        if !method.media.contains(&medium) {
            return wrong(
                "culture-medium",
                "the method of this set uses another medium, and this one may find fewer colonies",
            );
        }
        let (low, high) = (method.from.si() - SAME, method.to.si() + SAME);
        if !(low..=high).contains(&temperature.si()) {
            return wrong(
                "incubation-temperature",
                "the method of this set incubates at another temperature, and this one may find fewer colonies",
            );
        }
        if time < method.at_least {
            return wrong(
                "incubation-time",
                "the method of this set incubates for longer, and after this time fewer colonies can be seen",
            );
        }
        if technique == Technique::Loop {
            return wrong(
                "culture-technique",
                "a calibrated loop takes too little water: use another technique",
            );
        }
        if !method.techniques.contains(&technique) {
            return wrong(
                "culture-technique",
                "the method of this set takes a spread plate or membrane filtration",
            );
        }
        if self.tested? < method.volume * (1.0 - SAME) {
            return wrong("plated-volume", "the method of this set takes at least 0.5 mL of the sample");
        }
        Ok(())
    }
}

/// What a pass needs, named at once where one of it is missing.
fn asked<T>(known: Known<T>) -> Known<T> {
    const NEEDS_ALL: &str = "a pass needs the sampling port and the time to the test, and a culture its medium, temperature, time and technique too";
    known.map_err(|missing| Missing { why: NEEDS_ALL, ..missing })
}

/// How a sample was drawn and kept.
#[derive(Debug, Clone, Copy)]
pub struct Sample {
    /// Where it was drawn.
    pub port: Known<SamplePort>,
    /// Until it was tested.
    pub time_to_laboratory: Known<Time>,
    /// Whether it was kept cold until then.
    pub kept_cold: Known<Answered>,
}

/// Until then it need not be cooled (from memory).
const AT_ONCE: Time = minutes(30.0);
/// Until then it keeps where it is cold (from memory).
const KEEPS: Time = hours(24.0);

impl Sample {
    /// Whether it stands for this fluid.
    pub fn stands_for(&self, fluid: Fluid) -> Known<()> {
        let wrong = |field, why| Err(Missing::not_known(field, why));
        match (fluid, asked(self.port)?) {
            (Fluid::Water, SamplePort::MachineInlet) => {}
            (Fluid::Standard | Fluid::Ultrapure, SamplePort::FluidPort) => {}
            (Fluid::Water, SamplePort::RoOutlet) => {
                return wrong(
                    "sampling-port",
                    "a sample at the RO does not show the water after the hose: sample where it enters the dialysis machine",
                );
            }
            _ => return wrong("sampling-port", "a sample from this place is not a sample of this fluid"),
        }
        let time = asked(self.time_to_laboratory)?;
        if time <= AT_ONCE {
            return Ok(());
        }
        if time > KEEPS {
            return wrong("time-to-laboratory", "a sample is tested within 24 hours: draw another one");
        }
        match asked(self.kept_cold)? {
            Answered::Yes => Ok(()),
            Answered::No => wrong(
                "kept-cold",
                "a sample that is not tested within 30 minutes is kept cold: draw another one",
            ),
        }
    }
}
