//! ANSI/AAMI RD52:2004, table 1, the values of RD62:2001 as USP <1230> reprints them. 42 CFR 494.40 takes this edition.

use super::{ChemicalLimit, at_most, below};
use crate::sheet::{Source, source};
use crate::water::Analyte::{self as A};

pub(super) const SOURCE: &Source = &source::AAMI_RD62;

pub(super) const CHEMICAL: &[ChemicalLimit] = &[
    at_most(A::Calcium, 2.0),
    at_most(A::Magnesium, 4.0),
    at_most(A::Potassium, 8.0),
    at_most(A::Sodium, 70.0),
    at_most(A::Antimony, 0.006),
    at_most(A::Arsenic, 0.005),
    at_most(A::Barium, 0.1),
    at_most(A::Beryllium, 0.0004),
    at_most(A::Cadmium, 0.001),
    at_most(A::Chromium, 0.014),
    at_most(A::Lead, 0.005),
    at_most(A::Mercury, 0.0002),
    at_most(A::Selenium, 0.09),
    at_most(A::Silver, 0.005),
    at_most(A::Aluminium, 0.01),
    below(A::Chloramines, 0.1),
    below(A::FreeChlorine, 0.5),
    at_most(A::Copper, 0.1),
    at_most(A::Fluoride, 0.2),
    at_most(A::NitrateNitrogen, 2.0),
    at_most(A::Sulfate, 100.0),
    at_most(A::Thallium, 0.002),
    at_most(A::Zinc, 0.1),
];
