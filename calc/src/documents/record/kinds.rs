//! The kinds of events, each declared like a sheet: fields with their terms, shapes, units and ranges. What is typed, JSON,
//! CSV and the schema follow from the declaration.

use crate::choice;
use crate::engine::quantity::{
    Chlorine, Concentration, Conductivity, Endotoxin, Flow, Hardness, HeatDose, Ph, Pressure,
    PressureDifference, Ratio, Temperature, TemperatureDifference, Time, Volume,
};
use crate::engine::sheet::{Field, Reported, Term};
use crate::trade::carbon::Carbons;
use crate::trade::chemical::{Agent, TestKind};
use crate::trade::disinfect::{LogRow, ReadFrom};
use crate::trade::limits::{Fluid, LimitSet};
use crate::trade::product::{Medium, ProductResult, SamplePort, Technique};
use crate::trade::run::Answered;
use crate::trade::terms::report::FeedResult;
use crate::trade::terms::{chemical, chlorine, event, heat, membrane, report, softener, tap};
use chrono::NaiveDate;

/// One kind of event.
pub struct Kind {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
    /// What is written down.
    pub fields: &'static [Field],
    /// What it names besides its place.
    pub of: Names,
}

/// What an event names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Names {
    /// Nothing.
    Nothing,
    /// Another event: the sample of a report, what is signed off, what is corrected.
    Event,
    /// An instrument of the record.
    Instrument,
}

impl std::fmt::Debug for Kind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.id)
    }
}

impl PartialEq for Kind {
    /// Each kind is declared once.
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self, other)
    }
}

choice!(/// Yes or no; left open, nobody knows.
    YesNo { Yes "yes" "Yes", No "no" "No" });

choice!(/// A part that is changed.
Part {
    SedimentFilter "sediment-filter" "Sediment filter",
    SoftenerResin "softener-resin" "Softener resin",
    FirstCarbon "first-carbon" "First carbon (worker)",
    SecondCarbon "second-carbon" "Second carbon (polisher)",
    Membrane "membrane" "RO membrane",
    RetentiveFilter "retentive-filter" "Retentive filter",
    Other "other-part" "Another part",
});

choice!(/// Where a sample was drawn.
SamplePoint {
    Tap "tap" "Tap",
    AfterCarbon "after-carbon" "After the carbon",
    Product "product-water" "Product water",
    MachineInlet "machine-inlet" "Water inlet of the dialysis machine",
    Fluid "dialysis-fluid" "Dialysis fluid",
});

choice!(/// What a notice is about.
NoticeKind {
    OutOfService "out-of-service" "RO taken out of service",
    Supply "supply" "Water supply: disinfectant, works or a warning",
    Recall "recall" "Recall or safety notice of a maker",
    Other "other" "Something else",
});

choice!(/// How an instrument stood in its check.
    CheckResult { Within "within" "Within its tolerance", Adjusted "adjusted" "Adjusted", Failed "failed" "Failed" });

choice!(/// For what a reading stands from now on.
Reference {
    Anchor "anchor" "The plan starts from it",
    Baseline "baseline" "The RO in good order: later readings are compared with it",
});

macro_rules! kinds {
    ($( $konst:ident $id:literal $name:literal $of:ident { $( $field:ident $field_id:literal: $type:ty = $term:expr, )* } )+) => {
        $( #[doc = $name] pub static $konst: Kind = Kind {
            id: $id, name: $name, of: Names::$of, fields: crate::fields!(Input: $( $field $field_id: $type = $term, )*),
        }; )+
        /// Every kind.
        pub static KINDS: &[&Kind] = &[$( &$konst ),+];
    };
}

kinds! {
    READING "reading" "Reading" Nothing {
        temperature   "tap-temperature"         : Option<Temperature>        = tap::TAP_TEMPERATURE,
        product       "product-flow"            : Option<Flow>               = membrane::PRODUCT_FLOW,
        reject        "reject-flow"             : Option<Flow>               = membrane::REJECT_FLOW,
        pump          "pump-pressure"           : Option<Pressure>           = membrane::PUMP_PRESSURE,
        back          "product-pressure"        : Option<Pressure>           = membrane::PRODUCT_PRESSURE,
        drop          "membrane-drop"           : Option<PressureDifference> = membrane::MEMBRANE_DROP,
        feed          "feed-conductivity"       : Option<Conductivity>       = membrane::FEED_CONDUCTIVITY,
        permeate      "product-conductivity"    : Option<Conductivity>       = membrane::PRODUCT_CONDUCTIVITY,
        shut          "shut-pressure"           : Option<Pressure>           = tap::SHUT_PRESSURE,
        filter        "filter-drop"             : Option<PressureDifference> = tap::FILTER_DROP,
        filter_flow   "filter-drop-flow"        : Option<Flow>               = tap::FILTER_DROP_FLOW,
        chlorine      "total-chlorine"          : Option<Chlorine>           = chlorine::TOTAL_CHLORINE,
        softened      "hardness-after-softener" : Option<Hardness>           = softener::HARDNESS_AFTER,
        water         "water-counter"           : Option<Volume>             = event::WATER_COUNTER,
        sessions      "session-counter"         : Option<f64>                = event::SESSION_COUNTER,
    }
    CHLORINE_TEST "chlorine-test" "Chlorine test" Nothing {
        carbons       "carbons-in-series"       : Option<Carbons>            = Term::other("Carbons in series"),
        first         "chlorine-after-first"    : Option<Reported<Chlorine>> = chlorine::AFTER_FIRST,
        second        "chlorine-after-second"   : Option<Reported<Chlorine>> = chlorine::AFTER_SECOND,
        step_shown    "smallest-step"           : Option<Chlorine>           = chlorine::SMALLEST_STEP,
        uncertainty   "test-uncertainty"        : Option<Chlorine>           = chlorine::TEST_UNCERTAINTY,
        run_in        "run-in-time"             : Option<Time>               = chlorine::RUN_IN_TIME,
        blank         "interference-blank"      : Option<Chlorine>           = chlorine::INTERFERENCE_BLANK,
    }
    HEAT_DISINFECTION "heat-disinfection" "Heat disinfection" Nothing {
        log           "log"                     : Option<Vec<LogRow>>        = Term::other("Temperature log of the run"),
        temperature   "set-temperature"         : Option<Temperature>        = heat::LOGGED_TEMPERATURE.named("Temperature held, without a log"),
        time          "set-time"                : Option<Time>               = heat::HELD_TIME,
        dose          "needed-dose"             : Option<HeatDose>           = heat::NEEDED_DOSE,
        hold          "hold-temperature"        : Option<Temperature>        = heat::HOLD_TEMPERATURE,
        hold_time     "needed-hold-time"        : Option<Time>               = heat::NEEDED_TIME.named("Required hold time"),
        cool          "cool-temperature"        : Option<Temperature>        = heat::COOL_TEMPERATURE,
        cool_time     "needed-cool-time"        : Option<Time>               = heat::NEEDED_TIME.named("Required cool time"),
        tolerance     "probe-tolerance"         : Option<TemperatureDifference> = heat::PROBE_TOLERANCE,
        read_from     "temperature-read-from"   : Option<ReadFrom>           = Term::other("Where the temperature held was read"),
        due           "next-due"                : Option<NaiveDate>          = event::NEXT_DUE,
    }
    CHEMICAL_DISINFECTION "chemical-disinfection" "Chemical disinfection" Nothing {
        agent         "agent"                   : Option<Agent>              = chemical::AGENT,
        name          "disinfectant-name"       : Option<String>             = event::DISINFECTANT_NAME,
        strength      "wanted-concentration"    : Option<Concentration>      = chemical::WANTED,
        volume        "solution-volume"         : Option<Volume>             = chemical::SOLUTION_VOLUME,
        dwell         "dwell-time"              : Option<Time>               = event::DWELL_TIME,
        due           "next-due"                : Option<NaiveDate>          = event::NEXT_DUE,
    }
    RESIDUAL_TEST "residual-test" "Residual test" Nothing {
        name          "disinfectant-name"       : Option<String>                  = event::DISINFECTANT_NAME,
        kind          "residual-test"           : Option<TestKind>                = Term::other("Residual test used").help("Each disinfectant needs its own."),
        limit         "residual-limit"          : Option<Concentration>           = chemical::RESIDUAL_LIMIT,
        now           "residual-now"            : Option<Reported<Concentration>> = chemical::RESIDUAL.named("Residual after the rinse"),
        later         "residual-later"          : Option<Reported<Concentration>> = chemical::RESIDUAL.named("Residual in the retest, after the standing time"),
        pause         "pause"                   : Option<Time>                    = chemical::PAUSE,
        needed_pause  "needed-pause"            : Option<Time>                    = chemical::NEEDED_PAUSE,
        baseline      "back-at-baseline"        : Option<Answered>                = Term::other("pH and conductivity back at their values before the acid"),
        second        "second-reader"           : Option<String>                  = event::SECOND_READER,
    }
    SAMPLE_DRAWN "sample-drawn" "Sample drawn" Nothing {
        point         "sample-point"            : Option<SamplePoint>        = event::SAMPLE_POINT,
        label         "sample-label"            : Option<String>             = event::SAMPLE_LABEL,
        laboratory    "laboratory"              : Option<String>             = event::LABORATORY,
        waits         "use-waits"               : Option<YesNo>              = event::USE_WAITS,
    }
    LABORATORY_REPORT "laboratory-report" "Laboratory report" Event {
        laboratory    "laboratory"              : Option<String>             = event::LABORATORY,
        product       "product-report"          : Option<Vec<ProductResult>> = report::PRODUCT_REPORT,
        feed          "feed-report"             : Option<Vec<FeedResult>>    = report::FEED_REPORT,
        acidity       "feed-ph"                 : Option<Ph>                 = report::FEED_PH,
        temperature   "ph-temperature"          : Option<Temperature>        = report::PH_TEMPERATURE,
    }
    CULTURE_AND_ENDOTOXIN "culture-and-endotoxin" "Culture and endotoxin" Event {
        fluid         "fluid"                   : Option<Fluid>               = Term::other("What was sampled"),
        colonies      "colonies"                : Option<f64>                 = report::COLONIES,
        plated        "plated-volume"           : Option<Volume>              = report::PLATED_VOLUME,
        share         "sample-share"            : Option<Ratio>               = report::SAMPLE_SHARE,
        endotoxin     "endotoxin"               : Option<Reported<Endotoxin>> = report::ENDOTOXIN_RESULT,
        sensitivity   "test-sensitivity"        : Option<Endotoxin>           = report::TEST_SENSITIVITY,
        medium        "culture-medium"          : Option<Medium>              = Term::other("Culture medium"),
        incubated_at  "incubation-temperature"  : Option<Temperature>         = report::INCUBATION_TEMPERATURE,
        incubated     "incubation-time"         : Option<Time>                = report::INCUBATION_TIME,
        technique     "culture-technique"       : Option<Technique>           = Term::other("Culture technique"),
        port          "sampling-port"           : Option<SamplePort>          = Term::other("Sampling port"),
        carried       "time-to-laboratory"      : Option<Time>                = report::TIME_TO_LABORATORY,
        kept_cold     "kept-cold"               : Option<Answered>            = Term::other("Kept cold until it was tested"),
        due           "next-due"                : Option<NaiveDate>           = event::NEXT_DUE,
    }
    PART_CHANGED "part-changed" "Part changed" Nothing {
        part          "part"                    : Option<Part>               = event::PART,
        label         "part-label"              : Option<String>             = event::PART_LABEL,
        water         "water-counter"           : Option<Volume>             = event::WATER_COUNTER,
        sessions      "session-counter"         : Option<f64>                = event::SESSION_COUNTER,
        due           "next-due"                : Option<NaiveDate>          = event::NEXT_DUE,
    }
    MOVED "moved" "Moved" Nothing {
        words         "words"                   : Option<String>             = event::WORDS,
    }
    STORED "stored" "Stored" Nothing {
        preservative  "preservative"            : Option<YesNo>              = event::PRESERVATIVE,
        name          "disinfectant-name"       : Option<String>             = event::DISINFECTANT_NAME.named("Preservative used"),
    }
    RETURNED "returned" "Returned to service" Nothing {
        words         "words"                   : Option<String>             = event::WORDS,
    }
    NOTICE "notice" "Notice" Nothing {
        kind          "notice-kind"             : Option<NoticeKind>         = event::NOTICE_KIND,
        words         "words"                   : Option<String>             = event::WORDS,
    }
    INSTRUMENT_CHECKED "instrument-checked" "Instrument checked" Instrument {
        result        "check-result"            : Option<CheckResult>        = event::CHECK_RESULT,
        due           "next-due"                : Option<NaiveDate>          = event::NEXT_DUE,
    }
    LIMITS_CHOSEN "limits-chosen" "Limits chosen" Nothing {
        set           "limit-set"               : Option<LimitSet>           = report::LIMIT_SET,
    }
    REFERENCE_CHOSEN "reference-chosen" "Reading chosen as reference" Event {
        reference     "reference"               : Option<Reference>          = event::REFERENCE,
    }
    SIGN_OFF "sign-off" "Sign-off" Event {
        words         "words"                   : Option<String>             = event::WORDS,
    }
    CORRECTION "correction" "Correction" Event {
    }
}

/// What is said of an instrument.
pub const INSTRUMENT: &[Field] = crate::fields!(Input:
    name  "instrument-name"  : Option<String>    = event::INSTRUMENT_NAME,
    reads "instrument-reads" : Option<String>    = event::INSTRUMENT_READS,
    due   "next-due"         : Option<NaiveDate> = event::NEXT_DUE,
);

/// The kind that is called so.
pub fn kind(id: &str) -> Option<&'static Kind> {
    KINDS.iter().copied().find(|kind| kind.id == id)
}

impl Kind {
    /// One of its fields.
    pub fn field(&self, id: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.id == id)
    }
}
