//! The two kinds of carbon.

use crate::choice;

choice!(/// Block or granular.
    CarbonKind { Block "block" "Carbon block", Granular "granular" "Granular carbon in a vessel" });
