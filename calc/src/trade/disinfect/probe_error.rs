//! Whether an answer rests on the probe: what would follow if it were off by its accuracy, to the wrong side.

use crate::engine::quantity::{Quantity, TemperatureDifference};
use crate::engine::sheet::{Known, Sentence, Working};

/// What to say, by its id; the template has the places `tolerance`, `then` and `needed`.
pub type Said = (&'static str, &'static str);

/// Says so where what is enough would then be too little.
pub fn say<Q: Quantity + PartialOrd>(
    (id, template): Said,
    tolerance: TemperatureDifference,
    (now, then, needed): (Known<Q>, Known<Q>, Known<Q>),
    w: &mut Working,
) {
    let (Ok(now), Ok(then), Ok(needed)) = (now, then, needed) else { return };
    if now >= needed && then < needed {
        let sentence = Sentence::plain(template).quantity("tolerance", tolerance);
        w.warn("probe-tolerance", id, sentence.quantity("then", then).quantity("needed", needed));
    }
}
