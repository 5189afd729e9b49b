//! A carbon vessel or block by its dimensions: how much carbon, how fast through it, at what pressure drop.
//!
//! Rests on geometry and on Ergun's equation for loose grains. Grains of carbon are no spheres and pack by chance, so
//! that without the void and the sphericity of this carbon the drop is a range. Not covered: the drop of a block, of
//! vessel and pipes, of dirt, and how fast a bed may be washed backwards.

use super::CarbonKind;
use super::contact_time::{TEST_DECIDES, TIME_IN_CARBON};
use crate::engine::quantity::{
    Area, Density, Flow, Length, PressureDifference, Ratio, Temperature, Time, Velocity, Viscosity, Volume,
    kinds::{AREA, LENGTH, PRESSURE_DIFFERENCE, VELOCITY, VOLUME},
    percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Sentence, Side, Stage, Stop, Term,
    Working, source,
};
use crate::trade::cases;
use crate::trade::tap::looked_up_viscosity;
use crate::trade::terms::{carbon, place, tap};
use crate::{sheet, step, trade::water};
use std::f64::consts::PI;

/// The contact time that is wanted of this vessel or block alone.
pub static WANTED_CONTACT_TIME: Criterion = Criterion {
    id: "wanted-contact-time",
    sentence: "EBCT of this vessel or block, at the highest flow through it",
    stage: Stage::Carbon,
    side: Side::AtLeast,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["bed-depth", "vessel-diameter", "block-length"],
    cases: &[],
    judges: Judges::Output("contact-time"),
};

static DROP_OF_A_CLEAN_BED: Caution = Caution {
    id: "drop-of-a-clean-bed",
    text: "The pressure drop is that of the clean bed alone. Fines, dirt and growth raise it. A channel through the bed lowers it, and water then bypasses the carbon. Read two gauges, and record the flow and the water temperature with them.",
};

sheet! {
    /// Bed volume, EBCT, hydraulic loading and clean pressure drop of a carbon vessel or block of these dimensions, and the bed that a required EBCT needs.
    CarbonVessel, "carbon-vessel", "Carbon vessel size", Stage::Carbon,
    also: &["tank size", "GAC"],
    sources: &[&source::ERGUN_1952, &source::IAPWS_SR6_08, &source::COMMON_PRACTICE, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&TEST_DECIDES, &DROP_OF_A_CLEAN_BED],
    criteria: &[&WANTED_CONTACT_TIME],
    inputs: {
        kind        "carbon-kind":          CarbonKind         = place::CARBON_KIND,
        diameter    "vessel-diameter":      Known<Length>      = carbon::VESSEL_DIAMETER,
        depth       "bed-depth":            Known<Length>      = carbon::BED_DEPTH,
        outer       "block-outer-diameter": Known<Length>      = carbon::BLOCK_OUTER_DIAMETER,
        inner       "block-inner-diameter": Known<Length>      = carbon::BLOCK_INNER_DIAMETER,
        length      "block-length":         Known<Length>      = carbon::BLOCK_LENGTH,
        flow        "flow":                 Known<Flow>        = carbon::HIGHEST_FLOW,
        wanted      "wanted-contact-time":  Known<Time>        = carbon::WANTED_CONTACT_TIME,
        temperature "tap-temperature":      Known<Temperature> = tap::TAP_TEMPERATURE,
        grain       "grain-diameter":       Known<Length>      = carbon::GRAIN_DIAMETER,
        void        "bed-void":             Option<Ratio>      = carbon::BED_VOID,
        sphericity  "sphericity":           Option<f64>        = carbon::SPHERICITY,
    }
    outputs Outputs: {
        area    "bed-area":        Known<Area>               = Term::number(&AREA, "Bed cross-section", "A"),
        bed     "bed-volume":      Known<Volume>             = Term::number(&VOLUME, "Bed volume", "V").units("L", "ft³"),
        time    "contact-time":    Known<Time>               = TIME_IN_CARBON.named("EBCT of this vessel or block"),
        loading "bed-loading":     Known<Velocity>           = Term::number(&VELOCITY, "Hydraulic loading", "v").units("m/h", "gal/min/ft²"),
        least   "bed-drop-least":  Known<PressureDifference> = Term::number(&PRESSURE_DIFFERENCE, "Clean pressure drop, low estimate", "Δp"),
        most    "bed-drop-most":   Known<PressureDifference> = Term::number(&PRESSURE_DIFFERENCE, "Clean pressure drop, high estimate", "Δp"),
        needed  "needed-bed-volume": Known<Volume>           = Term::number(&VOLUME, "Bed volume needed for the required EBCT", "V_need").units("L", "ft³"),
        longer  "needed-bed-depth":  Known<Length>           = Term::number(&LENGTH, "Bed depth or block length needed for it", "L_need"),
    }
}

/// Void and sphericity of granular carbon (from memory of handbooks): loosely and closely packed.
const LOOSE: (Ratio, f64) = (percent(50.0), 0.80);
const CLOSE: (Ratio, f64) = (percent(38.0), 0.70);
/// Velocities between which pressure vessels are usually designed, and below which channels form: 5 to 7 gal/min for
/// each square foot (quoted), and 2 m/h (common practice, no source).
const FAST: Velocity = Velocity::of(17.1 / 3600.0);
const SLOW: Velocity = Velocity::of(2.0 / 3600.0);

impl Evaluate for CarbonVessel {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let granular = self.kind == CarbonKind::Granular;
        let pi = PI;
        w.bind("pi", "π", pi);
        let area = if granular { self.of_vessel(w) } else { self.of_block(w)? };
        let depth = if granular { self.depth } else { self.length };
        let bed = area.and_then(|area| {
            let depth = depth?;
            w.bind("depth", "L", depth);
            step!(w, bed "V" = area * depth);
            Ok(bed)
        });
        let time = bed.and_then(|bed| {
            let flow = self.flow?;
            step!(w, time "t_1" = bed / flow);
            Ok(time)
        });
        w.judge_known(&WANTED_CONTACT_TIME, time, self.wanted);
        let loading = if granular { area.and_then(|area| self.loading(area, w)) } else { Err(RADIAL) };
        let drops =
            if granular { loading.and_then(|loading| self.drops(loading, w)) } else { Err(NO_GRAINS) };
        let (least, most) = (drops.map(|(least, _)| least), drops.map(|(_, most)| most));
        let needed = self.wanted.and_then(|wanted| {
            let flow = self.flow?;
            step!(w, needed "V_need" = flow * wanted);
            Ok(needed)
        });
        let longer = needed.and_then(|needed| {
            let area = area?;
            w.bind("area", "A", area);
            step!(w, longer "L_need" = needed / area);
            Ok(longer)
        });
        Ok(Outputs { area, bed, time, loading, least, most, needed, longer })
    }
}

const RADIAL: Missing = Missing::none_exists(
    "water passes through a block from the outside to the middle and speeds up: it has no single hydraulic loading",
);
const NO_GRAINS: Missing = Missing::not_known(
    "carbon-kind",
    "only granular carbon can be computed: the pressure drop of a block is on its label, or read it at two gauges",
);

impl CarbonVessel {
    fn of_vessel(&self, w: &mut Working) -> Known<Area> {
        let (pi, diameter) = (PI, self.diameter?);
        step!(w, area "A": Area = pi / 4.0 * diameter.si() * diameter.si());
        if self.depth.is_ok_and(|depth| depth < diameter) {
            w.warn("bed-depth", "shallow-bed", "a bed that is less deep than wide does not distribute the water well, and part of the carbon is bypassed (common practice, no source)");
        }
        Ok(area)
    }

    fn of_block(&self, w: &mut Working) -> Result<Known<Area>, Stop> {
        let (outer, inner) = match (self.outer, self.inner) {
            (Ok(outer), Ok(inner)) => (outer, inner),
            (Err(missing), _) | (_, Err(missing)) => return Ok(Err(missing)),
        };
        if inner >= outer {
            let sentence = Sentence::plain(
                "an inside diameter of {inner} does not fit into a block of {outer}: check both and their units",
            );
            let sentence = sentence.quantity("inner", inner).quantity("outer", outer);
            return Err(Problem::new("block-inner-diameter", sentence).into());
        }
        let pi = PI;
        step!(w, area "A": Area = pi / 4.0 * (outer.si() * outer.si() - inner.si() * inner.si()));
        Ok(Ok(area))
    }

    fn loading(&self, area: Area, w: &mut Working) -> Known<Velocity> {
        let flow = self.flow?;
        step!(w, loading "v" = flow / area);
        if loading > FAST {
            w.warn(
                "vessel-diameter",
                "fast-loading",
                "above the usual hydraulic loading of pressure vessels, 12 to 17 m/h (5 to 7 gpm/ft²)",
            );
        }
        if loading < SLOW {
            w.warn(
                "vessel-diameter",
                "slow-loading",
                "below 2 m/h (0.8 gpm/ft²) water finds channels through the bed (common practice, no source)",
            );
        }
        Ok(loading)
    }

    /// At least and at most; both the same where void and sphericity are known.
    fn drops(&self, speed: Velocity, w: &mut Working) -> Known<(PressureDifference, PressureDifference)> {
        let (depth, grain, temperature) = (self.depth?, self.grain?, self.temperature?);
        let bed = Bed { depth, grain, speed, density: water::density(temperature) };
        let density = bed.density;
        w.procedure(("density", "ρ"), density, || {
            Sentence::plain("density of water at {temperature}, IAPWS SR6-08")
                .quantity("temperature", temperature)
        });
        let viscosity = looked_up_viscosity(("viscosity", "μ"), temperature, w);
        let packed =
            |packing: (Ratio, f64)| (self.void.unwrap_or(packing.0), self.sphericity.unwrap_or(packing.1));
        let least = w.in_case(cases::LEAST, |w| bed.ergun(packed(LOOSE), viscosity, w));
        let most = w.in_case(cases::MOST, |w| bed.ergun(packed(CLOSE), viscosity, w));
        Ok((least, most))
    }
}

/// Loose grains through which water goes.
struct Bed {
    depth: Length,
    grain: Length,
    speed: Velocity,
    density: Density,
}

impl Bed {
    /// The pressure drop of a clean bed of loose grains.
    ///
    /// # Formula
    /// Δp = L [150 μ v (1 − ε)² / (ε³ d²) + 1.75 ρ v² (1 − ε) / (ε³ d)], d = ψ d_p
    ///
    /// | Symbol | Meaning | Unit | Range |
    /// |---|---|---|---|
    /// | L | depth of the bed | m | |
    /// | v | flow over cross-section | m/s | |
    /// | ε | void | 1 | 0.1 to 0.9 |
    /// | d_p, ψ | diameter of a grain, its sphericity | m, 1 | |
    /// | μ, ρ | viscosity and density of water | Pa·s, kg/m³ | |
    /// | Δp | pressure drop (returned) | Pa | |
    ///
    /// # Accuracy
    /// The equation itself is within some tens of per cent for grains (from memory); void counts most: 0.40 in place of
    /// 0.45 gives 1.8 times the drop.
    ///
    /// # Source
    /// `ergun-1952`. Check values: tests/published/carbon-vessel.csv, against `fluids` 1.3.1.
    fn ergun(
        &self,
        (void, sphericity): (Ratio, f64),
        viscosity: Viscosity,
        w: &mut Working,
    ) -> PressureDifference {
        let &Bed { depth, grain, speed, density } = self;
        let void = void.si();
        w.bind("depth", "L", depth);
        w.bind("grain", "d_p", grain);
        w.bind("speed", "v", speed);
        w.bind("void", "ε", void);
        w.bind("sphericity", "ψ", sphericity);
        step!(w, size "d" = sphericity * grain);
        step!(w, solid "s" = (1.0 - void) / (void * void * void));
        step!(w, viscous "Δp_v": PressureDifference = 150.0 * solid * (1.0 - void) * viscosity.si() * speed.si() / (size.si() * size.si()) * depth.si());
        step!(w, inertial "Δp_i": PressureDifference = 1.75 * solid * density.si() * speed.si() * speed.si() / size.si() * depth.si());
        step!(w, drop "Δp" = viscous + inertial);
        drop
    }
}
