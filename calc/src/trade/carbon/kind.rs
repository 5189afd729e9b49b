//! The two kinds of carbon.

use crate::choice;

choice!(/// Kind of carbon.
    CarbonKind { Block "block" "Carbon block", Granular "granular" "Granular carbon in a vessel" });
