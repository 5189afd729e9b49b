//! Japan: the standard of the Japanese Society for Dialysis Therapy. Its microbial limits alone are here; below 0.001 EU/mL
//! stands there as “below detection”.

use super::{Fluid, LimitSet, Limits, MicrobialLimit, criteria, microbial};
use crate::engine::sheet::source::HowKnown::Read;

criteria! {
    AT_MOST "jsdt" "Chemical limit of the JSDT" AtMost JSDT;
    BELOW "jsdt-below" "Chemical limit of the JSDT: a result at the limit needs action" Below JSDT;
    COLONIES "jsdt-colonies" "Colony count below the limit of the JSDT" Below JSDT judges "colony-count";
    ENDOTOXIN "jsdt-endotoxin" "Endotoxin below the limit of the JSDT" Below JSDT;
}

pub(super) static LIMITS: Limits = Limits {
    set: LimitSet::Jsdt,
    at_most: &AT_MOST,
    below: &BELOW,
    chemical: &[],
    beyond: "",
    colonies: &COLONIES,
    colonies_action: None,
    endotoxin: &ENDOTOXIN,
    endotoxin_action: None,
    microbial: MICROBIAL,
};

const MICROBIAL: &[MicrobialLimit] = &[
    microbial(Fluid::Water, [Some(100.0), None], [Some(0.05), None], Read),
    microbial(Fluid::Standard, [Some(100.0), None], [Some(0.05), None], Read),
    microbial(Fluid::Ultrapure, [Some(0.1), None], [Some(0.001), None], Read),
];
