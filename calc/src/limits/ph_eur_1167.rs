//! European Pharmacopoeia, monograph 1167, recalled and not opened: to be checked against the text. Nitrate is stated as NO3.

use super::{ChemicalLimit, at_most, below};
use crate::sheet::{Source, source};
use crate::water::Analyte::{self as A};

pub(super) const SOURCE: &Source = &source::PH_EUR_1167;

pub(super) const CHEMICAL: &[ChemicalLimit] = &[
    below(A::TotalChlorine, 0.1),
    at_most(A::Chloride, 50.0),
    at_most(A::Fluoride, 0.2),
    at_most(A::Nitrate, 2.0),
    at_most(A::Sulfate, 50.0),
    at_most(A::Aluminium, 0.01),
    at_most(A::Ammonium, 0.2),
    at_most(A::Calcium, 2.0),
    at_most(A::Magnesium, 2.0),
    at_most(A::Mercury, 0.001),
    at_most(A::Potassium, 2.0),
    at_most(A::Sodium, 50.0),
    at_most(A::Zinc, 0.1),
];
