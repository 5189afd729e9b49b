//! The reject flow to set today, so that recovery stays within its limit in the warmest water.
//!
//! With a set valve the reject stays while product rises with the temperature, so that today's recovery says little of
//! the warmest month. Rests on the published forms of the temperature correction, the greatest of which counts.

use super::operation::{Anchor, Control, Forms, Question};
use super::product_flow_year::Season;
use super::recovery::SCALE;
use crate::engine::quantity::{
    Flow, Ratio, Temperature, Time, Volume, kinds::FLOW, kinds::RATIO, kinds::TIME,
};
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Stage, Stop, Term, Working, source};
use crate::trade::terms::{membrane, tap};
use crate::{sheet, step};

static RAISES_FEED: Caution = Caution {
    id: "more-reject-is-more-feed",
    text: "More reject means more feed through everything before the RO: check contact time, softener, inlet pressure and drain again. Product flow may fall a little: read it again.",
};

sheet! {
    /// The lowest reject flow to set today so that recovery stays within its limit in the warmest month, as a time to fill a jug.
    RejectSetting, "reject-setting", "Reject setting", Stage::Membrane,
    also: &["concentrate", "reject valve"],
    sources: &[&source::MASS_BALANCE, &source::ASTM_D4516, &source::COMMON_PRACTICE],
    cautions: &[&SCALE, &RAISES_FEED],
    criteria: &[],
    inputs: {
        product "product-flow":        Flow            = membrane::PRODUCT_FLOW,
        reject  "reject-flow":         Known<Flow>     = membrane::REJECT_FLOW,
        anchor  "anchor-temperature":  Temperature     = membrane::ANCHOR_TEMPERATURE,
        warmest "warmest-temperature": Temperature     = membrane::WARMEST_TEMPERATURE,
        highest "highest-recovery":    Ratio           = membrane::HIGHEST_RECOVERY.help("From the RO's instructions, or from the scale tendency of this water."),
        control "control":             Option<Control> = membrane::CONTROL,
        forms   "forms":               Option<Forms>   = membrane::FORMS,
        jug     "jug-volume":          Known<Volume>   = tap::JUG_VOLUME,
    }
    outputs Outputs: {
        needed   "needed-reject-flow":  Known<Flow>  = Term::number(&FLOW, "Lowest reject flow to set", "Q_c,set"),
        jug_time "reject-jug-time":     Known<Time>  = Term::number(&TIME, "Longest time to fill the jug with reject", "t_jug").units("s", "s"),
        feed     "feed-warmest":        Known<Flow>  = Term::number(&FLOW, "Feed flow in the warmest water, with that setting", "Q_f"),
        raised   "feed-raised":         Known<Flow>  = Term::number(&FLOW, "Extra feed flow compared with now", "ΔQ_f"),
        recovery "recovery":            Known<Ratio> = Term::number(&RATIO, "Recovery at the temperature of the reading, with that setting", "Y"),
    }
}

impl Evaluate for RejectSetting {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &RejectSetting { product, reject, .. } = self;
        let setting = self.setting(w);
        let feed = setting.map(|(warm, needed)| {
            w.bind("warm", "Q_p,warm", warm);
            w.bind("needed", "Q_c,set", needed);
            step!(w, feed "Q_f" = warm + needed);
            feed
        });
        let needed = setting.map(|(_, needed)| needed);
        let raised = needed.and_then(|needed| {
            let reject = reject?;
            step!(w, raised "ΔQ_f" = needed - reject);
            Ok(raised)
        });
        let recovery = needed.map(|needed| {
            step!(w, recovery "Y": Ratio = product / (product + needed));
            recovery
        });
        let jug_time = needed.and_then(|needed| {
            let jug = self.jug?;
            step!(w, jug_time "t_jug" = jug / needed);
            Ok(jug_time)
        });
        if let (Ok(reject), Ok(needed)) = (reject, needed)
            && reject >= needed
        {
            w.warn(
                "reject-flow",
                "reject-high-enough",
                "the reject flow is high enough now; this is the lowest that is enough",
            );
        }
        Ok(Outputs { needed, jug_time, feed, raised, recovery })
    }
}

impl RejectSetting {
    /// Product flow in the warmest water, and the reject that keeps the limit there.
    fn setting(&self, w: &mut Working) -> Known<(Flow, Flow)> {
        match self.control {
            Some(Control::SetValve) => {}
            None => w.assume(
                "control",
                "a set reject valve is assumed: reject stays the same while product rises with temperature",
            ),
            Some(Control::HeldRecovery) => {
                return Err(Missing::none_exists(
                    "this RO controls its own recovery; set the limit there, as its instructions say",
                ));
            }
            Some(Control::FixedFeed | Control::HeldProduct | Control::NoPump) => {
                return Err(Missing::not_known(
                    "control",
                    "how the pressure of this RO changes with its reject valve: see its instructions",
                ));
            }
        }
        let highest = self.highest;
        let anchor = Anchor::new(self.product, self.reject, self.anchor)
            .controlled(Some(Control::SetValve), self.forms.unwrap_or(Forms::Worst));
        w.in_season(Season::Warmest.when(), |w| {
            let warm = anchor.product(&anchor.at(self.warmest), Question::Most, w)?;
            w.bind("warm", "Q_p,warm", warm);
            step!(w, needed "Q_c,set" = warm * ((1.0 - highest.si()) / highest.si()));
            Ok((warm, needed))
        })
    }
}
